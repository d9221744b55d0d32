declare module 'json-merge-patch' {
  /** Applies an RFC 7396 merge patch; the target may be changed in place. */
  export function apply(target: unknown, patch: unknown): unknown;
  const mergePatch: { apply: typeof apply };
  export default mergePatch;
}
