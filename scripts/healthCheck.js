import { get } from 'node:http';
import process from 'node:process';

/** The container's health check: exits with 0 if the service is ready, otherwise with 1. */
get(`http://127.0.0.1:${process.env.PORT ?? 3000}/health/ready`, ({ statusCode }) => {
  process.exit(statusCode === 200 ? 0 : 1);
}).on('error', () => process.exit(1));
