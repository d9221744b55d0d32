/**
 * What the OpenAPI document needs beyond what the schemas give of themselves, so that a reader, and a client made from
 * it, meets one name a thing.
 */

/** Marks a header that an operation needs although its schema lets it be missing. */
export const NEEDED = 'x-needed';

interface Parameter {
  in: string;
  name: string;
  required?: boolean;
  schema?: Record<string, unknown>;
}

type Paths = Record<string, Record<string, { parameters?: Parameter[] }>>;

export interface Document {
  paths?: Paths;
  components?: { schemas?: Record<string, unknown> };
}

export function shaped(document: Document): Document {
  const { paths = {}, ...rest } = withoutUnused(inOneForm(withoutDatePatterns(document)));
  return { ...rest, paths: mapParameters(paths, headerAsWritten) };
}

const REFERENCE = '#/components/schemas/';
const SENT = 'Input';

/**
 * Every schema is made once as it is sent and once as it is answered, where members with a default are always there.
 * What is sent has the plain name, and what is answered of the same name is described as it may be sent.
 */
function inOneForm(document: Document): Document {
  const schemas = document.components?.schemas ?? {};
  const used = Object.keys(withoutUnused(document).components?.schemas ?? {});
  const sent = new Set(used.filter((name) => name.endsWith(SENT) && name.slice(0, -SENT.length) in schemas));
  const plain = (name: string): string => (sent.has(name) ? name.slice(0, -SENT.length) : name);
  const renamed = Object.entries(schemas).map(([name, schema]): [string, unknown] => {
    const asSent = `${name}${SENT}`;
    return [name, sent.has(asSent) ? schemas[asSent] : schema];
  });
  const whole = { ...document, components: { ...document.components, schemas: Object.fromEntries(renamed) } };
  return revive(whole, (key, value) =>
    key === '$ref' && typeof value === 'string' && value.startsWith(REFERENCE)
      ? `${REFERENCE}${plain(value.slice(REFERENCE.length))}`
      : value,
  );
}

/** Leaves out the schemas that nothing refers to. */
function withoutUnused(document: Document): Document {
  const schemas = document.components?.schemas ?? {};
  const text = JSON.stringify(document);
  const used = Object.entries(schemas).filter(([name]) => text.includes(`"${REFERENCE}${name}"`));
  if (used.length === Object.keys(schemas).length) return document;
  // One that goes may have been the last to refer to another.
  return withoutUnused({
    ...document,
    components: { ...document.components, schemas: Object.fromEntries(used) },
  });
}

/** `format` says what a date is; the pattern beside it only hides that. */
const withoutDatePatterns = (document: Document): Document =>
  revive(document, (_key, value) => {
    const { pattern: _, ...rest } = (value ?? {}) as { pattern?: string; format?: string };
    return rest.format === 'date' || rest.format === 'date-time' ? rest : value;
  });

function headerAsWritten(parameter: Parameter): Parameter {
  if (parameter.in !== 'header') return parameter;
  const { [NEEDED]: needed = false, ...schema } = parameter.schema ?? {};
  const name = parameter.name.replace(/(^|-)[a-z]/g, (start) => start.toUpperCase());
  return { ...parameter, name, required: needed === true, schema };
}

function mapParameters(paths: Paths, change: (parameter: Parameter) => Parameter): Paths {
  const changed = Object.entries(paths).map(([path, operations]) => [
    path,
    Object.fromEntries(
      Object.entries(operations).map(([method, operation]) => [
        method,
        operation.parameters ? { ...operation, parameters: operation.parameters.map(change) } : operation,
      ]),
    ),
  ]);
  return Object.fromEntries(changed) as Paths;
}

/** A copy of the document with every value put through a function, innermost first. */
const revive = (document: Document, change: (key: string, value: unknown) => unknown): Document =>
  JSON.parse(JSON.stringify(document), change) as Document;
