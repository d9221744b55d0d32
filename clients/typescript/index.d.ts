import type { Client, ClientOptions } from 'openapi-fetch';
import type { components, paths } from './schema.js';

export type { components, paths } from './schema.js';

/** The types of all request and response bodies, by name. */
export type Schemas = components['schemas'];

/** A call that the service refused. `problem` is the answer: its code, its detail, and where the errors are. */
export class Refused extends Error {
  constructor(problem: Schemas['Problem']);
  readonly problem: Schemas['Problem'];
}

export interface ConnectOptions extends Omit<ClientOptions, 'headers'> {
  /** The service's address, such as `https://brakes.example`. */
  baseUrl: string;
  /** An API key whose role allows the calls. */
  key: string;
  headers?: Record<string, string>;
}

/** A client for one key. Every path, parameter, body and answer has its documented type. */
export function connect(options: ConnectOptions): Client<paths, `application/${string}`>;

/** The data of an answer. Throws {@link Refused} if the service refused the call. */
export function dataOf<Data>(answer: {
  data?: Data;
  error?: Schemas['Problem'];
  response: { status: number };
}): Data;
