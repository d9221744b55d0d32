/** Expected refusals of a request, as opposed to faults. */

/** One error in the input; `path` leads to the field from the root of the body. */
export interface Issue {
  path: (string | number)[];
  detail: string;
}

export type RefusalKind = 'not-found' | 'conflict' | 'invalid' | 'stale';

export class Refusal extends Error {
  /**
   * @param code stable, kebab-case
   * @param members further facts for the caller, such as the id of the conflicting visit
   */
  constructor(
    readonly kind: RefusalKind,
    readonly code: string,
    detail: string,
    readonly issues: Issue[] = [],
    readonly members: Record<string, string> = {},
  ) {
    super(detail);
    this.name = 'Refusal';
  }
}

export const notFound = (
  what: string,
  detail = `no such ${what}`,
  members: Record<string, string> = {},
): Refusal => new Refusal('not-found', 'not-found', detail, [], members);

export const stale = (): Refusal =>
  new Refusal(
    'stale',
    'stale-version',
    'the resource has changed since you read it; read it again and repeat the change',
  );

/** @param issues at least one */
export function invalid(issues: Issue[], members: Record<string, string> = {}): Refusal {
  return new Refusal(
    'invalid',
    'invalid',
    'the request is well-formed but not valid; see errors',
    issues,
    members,
  );
}
