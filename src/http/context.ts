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

/** A server whose route types come from zod schemas. */
export type ZodServer = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** What every route is given. */
export interface RouteContext {
  store: Store;
  paging: Paging;
  now: () => Date;
  /** Today's date in the shop's time zone. */
  today: () => string;
  /** Whether webhooks may use http and non-public addresses. */
  webhookAllowPrivate: boolean;
  /** The service's public address, without a trailing slash; null if not configured. */
  publicUrl: string | null;
}
