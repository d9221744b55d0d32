import assert from 'node:assert/strict';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import type { Response } from 'supertest';

/**
 * Validates any answer against the served OpenAPI document: the operation, status and content type must be declared and
 * the body must match its schema. A request that the document does not have must be refused.
 */

export interface MediaType {
  schema?: unknown;
  example?: unknown;
  examples?: Record<string, { value?: unknown }>;
}
type Content = Record<string, MediaType>;
export interface Operation {
  operationId?: string;
  summary?: string;
  description?: string;
  tags?: string[];
  security?: unknown[];
  parameters?: { name: string; in: string; required?: boolean; example?: unknown; schema?: unknown }[];
  requestBody?: { content: Content };
  responses: Record<string, { description?: string; content?: Content }>;
}
/** An answer, and its request. */
export interface Answer {
  method: string;
  /** Without the query. */
  path: string;
  status: number;
  /** The content type without its parameters; empty where there is none. */
  type: string;
  text: string;
}
export interface OpenApiDocument {
  openapi: string;
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, unknown> };
}

const ROOT = 'openapi.json';
/** Members of the document, and annotations, that JSON Schema does not define. */
const NO_KEYWORDS = ['openapi', 'info', 'servers', 'tags', 'paths', 'components', 'security', 'example'];
const PROBLEM = 'application/problem+json';
/** The answers that a path or method outside the document may get. */
const UNKNOWN_STATUSES = [400, 401, 404, 405, 429];

/** A place in the document, as a JSON pointer in a URI fragment. */
export const placeIn = (...path: string[]): string =>
  `#${path.map((step) => `/${encodeURIComponent(step.replaceAll('~', '~0').replaceAll('/', '~1'))}`).join('')}`;

/** The body of an answer as text; for a picture supertest has only the bytes. */
export const textOf = ({ text, body }: Response): string =>
  text ?? (Buffer.isBuffer(body) ? body.toString() : '');

export class Contract {
  private readonly ajv = new Ajv2020({
    allErrors: true,
    strict: true,
    allowUnionTypes: true,
    code: { optimize: false },
  });
  private readonly validators = new Map<string, ValidateFunction>();
  private readonly templates: { template: string; pattern: RegExp }[];

  constructor(readonly document: OpenApiDocument) {
    // Both packages are CommonJS, which the types of this one do not say.
    (addFormats as unknown as (ajv: Ajv2020) => void)(this.ajv);
    this.ajv.addVocabulary(NO_KEYWORDS);
    this.ajv.addSchema(document as object, ROOT);
    // A path without parameters takes precedence over one with.
    this.templates = Object.keys(document.paths)
      .sort((a, b) => a.split('{').length - b.split('{').length)
      .map((template) => ({
        template,
        pattern: new RegExp(`^${template.replaceAll('.', '\\.').replace(/\{([^}]+)\}/g, '(?<$1>[^/]*)')}$`),
      }));
  }

  /** The errors of a value against the schema at a place in the document. */
  complaints(place: string, value: unknown): string[] {
    let validator = this.validators.get(place);
    if (!validator) {
      validator = this.ajv.compile({ $ref: `${ROOT}${place}` });
      this.validators.set(place, validator);
    }
    if (validator(value)) return [];
    return (validator.errors ?? []).map(
      ({ instancePath, message, params }) => `${instancePath || '/'} ${message} ${JSON.stringify(params)}`,
    );
  }

  /** A media type's own examples, and those of the schema it refers to. */
  examplesOf({ example, examples, schema }: MediaType): unknown[] {
    const name = /#\/components\/schemas\/(.+)$/.exec((schema as { $ref?: string })?.$ref ?? '')?.[1];
    const referred = name === undefined ? schema : this.document.components.schemas[name];
    return [
      ...(example === undefined ? [] : [example]),
      ...Object.values(examples ?? {}).map(({ value }) => value),
      ...((referred as { examples?: unknown[] })?.examples ?? []),
    ];
  }

  /** Throws if an answer does not match the document; for supertest's `expect`. */
  readonly check = (response: Response): void => {
    const { method, url } = (response as unknown as { request: { method: string; url: string } }).request;
    const { status, type } = response;
    this.checkAnswer({ method, path: new URL(url).pathname, status, type, text: textOf(response) });
  };

  /** The path template that a path matches, with the values of its parameters. */
  templateOf(path: string): { template: string; params: Record<string, string> } | null {
    for (const { template, pattern } of this.templates) {
      const found = pattern.exec(path);
      if (found) return { template, params: { ...found.groups } };
    }
    return null;
  }

  /** The operation that a path and method call. */
  operationOf(method: string, path: string): { template: string; verb: string; operation: Operation } | null {
    const template = this.templateOf(path)?.template;
    // HEAD is answered as GET is, without the body.
    const verb = (method === 'HEAD' ? 'GET' : method).toLowerCase();
    const operation = template === undefined ? undefined : this.document.paths[template]![verb];
    return operation ? { template: template!, verb, operation } : null;
  }

  /** Throws if an answer does not match the document. */
  checkAnswer(answer: Answer): void {
    const { method, path, status, type, text } = answer;
    const asked = this.operationOf(method, path);
    const name = `${method} ${path} → ${status}`;
    if (!asked) return this.checkUnknown(name, answer);

    const declared = asked.operation.responses[String(status)];
    assert.ok(declared, `${name}: the status is not declared; ${text}`);
    if (method === 'HEAD') return;
    if (!declared.content) {
      assert.equal(text, '', `${name}: no body is declared`);
      return;
    }
    assert.ok(declared.content[type], `${name}: content type ${type} is not declared`);
    const { template, verb } = asked;
    const place = ['paths', template, verb, 'responses', String(status), 'content', type, 'schema'];
    const body: unknown = /[/+]json$/.test(type) ? JSON.parse(text) : text;
    assert.deepEqual(this.complaints(placeIn(...place), body), [], `${name}: the body is not as declared`);
    if (type === PROBLEM) checkProblem(name, answer, body as Record<string, unknown>);
  }

  private checkUnknown(name: string, answer: Answer): void {
    const { status, type, text } = answer;
    assert.ok(UNKNOWN_STATUSES.includes(status), `${name}: this address is not in the document`);
    if (text === '') return;
    assert.equal(type, PROBLEM, name);
    const body = JSON.parse(text) as Record<string, unknown>;
    const place = placeIn('components', 'schemas', 'Problem');
    assert.deepEqual(this.complaints(place, body), [], `${name}: the body is not a Problem`);
    checkProblem(name, answer, body);
  }
}

/** RFC 9457: the member repeats the status. Internal details must not appear. */
function checkProblem(name: string, { status, text }: Answer, body: Record<string, unknown>): void {
  assert.equal(body.status, status, `${name}: status and body differ`);
  assert.match(String(body.code), /^[a-z]+(-[a-z]+)*$/, `${name}: code`);
  assert.doesNotMatch(
    text,
    /sqlite|select |insert into|node_modules|\bat \S+ \(|\.[jt]s:\d+/i,
    `${name}: the inside shows`,
  );
}

const known = new Map<string, Contract>();

/** The contract in a document's text; compiled once per text. */
export function contractFrom(text: string): Contract {
  const made = known.get(text) ?? new Contract(JSON.parse(text) as OpenApiDocument);
  known.set(text, made);
  return made;
}
