/** Adjusts the generated OpenAPI document so that each thing has one name, for readers and generated clients. */

/** Marks a header that is required although its schema makes it optional. */
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

export function simplify(document: Document): Document {
  const { paths = {}, ...rest } = withoutUnused(inOneForm(withoutDatePatterns(document)));
  return byName({ ...rest, paths: mapParameters(paths, headerAsWritten) });
}

/** Schemas by name: the generator lists them in the order in which their modules happened to be loaded. */
function byName(document: Document): Document {
  const schemas = Object.entries(document.components?.schemas ?? {}).sort(([a], [b]) => (a < b ? -1 : 1));
  return { ...document, components: { ...document.components, schemas: Object.fromEntries(schemas) } };
}

const REFERENCE = '#/components/schemas/';
const SENT = 'Input';

/**
 * The generator emits each schema twice: as input, and as output, where members with a default are required. Keeps the
 * input form of both, under the plain name.
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

/** Drops schemas that nothing references. */
function withoutUnused(document: Document): Document {
  const schemas = document.components?.schemas ?? {};
  const text = JSON.stringify(document);
  const used = Object.entries(schemas).filter(([name]) => text.includes(`"${REFERENCE}${name}"`));
  if (used.length === Object.keys(schemas).length) return document;
  // A dropped schema may have held the last reference to another one.
  return withoutUnused({
    ...document,
    components: { ...document.components, schemas: Object.fromEntries(used) },
  });
}

/** `format: date` already describes a date; the generated pattern only clutters the document. */
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

/** Copies the document, applying a function to every value, innermost first. */
const revive = (document: Document, change: (key: string, value: unknown) => unknown): Document =>
  JSON.parse(JSON.stringify(document), change) as Document;
