import { get } from 'node:http';
import process from 'node:process';

/** The health check of the container: ends with 0 where the service is ready. */
get(`http://127.0.0.1:${process.env.PORT ?? 3000}/health/ready`, ({ statusCode }) => {
  process.exit(statusCode === 200 ? 0 : 1);
}).on('error', () => process.exit(1));
