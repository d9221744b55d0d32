import type { z } from 'zod';
import './issueWords.js';

/** One error found by a schema; `path` leads to the field. */
export interface SchemaIssue {
  path: PropertyKey[];
  detail: string;
}

/** A schema's errors, one per field: unknown fields one by one, and for a union those of its first option. */
export function schemaIssues(issues: readonly z.core.$ZodIssue[]): SchemaIssue[] {
  return issues.flatMap((issue) => flatten(issue, []));
}

function flatten(issue: z.core.$ZodIssue, above: readonly PropertyKey[]): SchemaIssue[] {
  const path = [...above, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({ path: [...path, key], detail: issue.message }));
  }
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    return issue.errors[0]!.flatMap((inner) => flatten(inner, path));
  }
  return [{ path, detail: issue.message }];
}
