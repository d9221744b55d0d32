/** No body of this service nests deeper, or has as many members in one object or as many items in one list. */
const MAX_DEPTH = 32;
const MAX_MEMBERS = 500;
const MAX_ITEMS = 10_000;

/**
 * Finds what makes a text unfit to be read as JSON, before a parser spends time on it; null where nothing does. Whether
 * it is well-formed is for the parser to tell. RFC 8259 section 4 leaves a name that
 * occurs twice in one object to the reader, so that two programs could read two different bodies; `__proto__` is not an
 * ordinary member for many of them.
 */
export function faultInJson(text: string): string | null {
  /** Each open object's names, or the number of items begun in an open list. */
  const open: (Set<string> | { items: number })[] = [];
  for (let at = 0; at < text.length; at++) {
    const character = text[at];
    const innermost = open.at(-1);
    if (character === '{' || character === '[') {
      if (open.length === MAX_DEPTH) return `the body is nested more than ${MAX_DEPTH} deep`;
      open.push(character === '{' ? new Set() : { items: 1 });
    } else if (character === '}' || character === ']') {
      open.pop();
    } else if (character === ',' && innermost && !(innermost instanceof Set)) {
      innermost.items += 1;
      if (innermost.items > MAX_ITEMS) return `a list has more than ${MAX_ITEMS} items`;
    } else if (character === '"') {
      const end = endOfString(text, at);
      if (innermost instanceof Set && isName(text, end)) {
        const fault = addName(innermost, text.slice(at, end));
        if (fault !== null) return fault;
      }
      at = end - 1;
    }
  }
  return null;
}

/** Adds a member's name to those of its object, or says why it must not be there. */
function addName(names: Set<string>, quoted: string): string | null {
  const name = unquoted(quoted);
  if (name === null) return null;
  if (names.has(name)) return `the name ${JSON.stringify(name)} occurs twice in one object`;
  if (name === '__proto__') return 'no object may have a member named __proto__';
  if (!name.isWellFormed()) return `the name ${JSON.stringify(name)} has half of a surrogate pair`;
  names.add(name);
  return names.size > MAX_MEMBERS ? `an object has more than ${MAX_MEMBERS} members` : null;
}

/** The text of a JSON string; null where it is none, which the parser refuses. */
function unquoted(quoted: string): string | null {
  // Most names have no escape, and a parser for each takes longer than all else here.
  if (!quoted.includes('\\')) return quoted.slice(1, -1);
  try {
    return JSON.parse(quoted) as string;
  } catch {
    return null;
  }
}

/** Behind the closing quotation mark of the string that begins at a place, or the end of the text. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  while (at < text.length && text[at] !== '"') at += text[at] === '\\' ? 2 : 1;
  return at + 1;
}

/** Whether the string that ends at a place is a member's name. */
function isName(text: string, end: number): boolean {
  let at = end;
  while (' \t\n\r'.includes(text[at]!)) at++;
  return text[at] === ':';
}
