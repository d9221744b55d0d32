import createClient from 'openapi-fetch';

/** A call that the service refused. `problem` is the answer: its code, its detail, and where the errors are. */
export class Refused extends Error {
  constructor(problem) {
    const places = problem.errors?.map(({ pointer, parameter, header, detail }) =>
      [pointer ?? parameter ?? header, detail].filter(Boolean).join(' '),
    );
    super([problem.detail, ...(places ?? [])].join('; '));
    this.name = 'Refused';
    this.problem = problem;
  }
}

/** A client for one key. Every path, parameter, body and answer has its documented type. */
export const connect = ({ baseUrl, key, ...options }) =>
  createClient({ ...options, baseUrl, headers: { ...options.headers, Authorization: `Bearer ${key}` } });

/** The data of an answer. Throws {@link Refused} if the service refused the call. */
export function dataOf({ data, error, response }) {
  if (error !== undefined) throw new Refused(error);
  if (data === undefined) throw new Error(`the service answered ${response.status} without a body`);
  return data;
}
