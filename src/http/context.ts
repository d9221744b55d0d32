import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Paging } from './paging.js';
import type { Store } from '../store/contract/store.js';

/** A server whose routes take their types from zod schemas. */
export type ZodServer = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What every route may lean on. */
export interface RouteContext {
  store: Store;
  paging: Paging;
  now: () => Date;
  /** Today's date in the shop's time zone. */
  today: () => string;
  /** Whether webhooks may go to http and to addresses that are not public. */
  webhookAllowPrivate: boolean;
  /** The address that callers know the service by, without a slash at its end; null where nobody said. */
  publicUrl: string | null;
}
