import { inWords } from '../core/rounding.js';

/**
 * Limits on nesting depth, members per object and items per list; every valid body of this service stays below them.
 */
const MAX_DEPTH = 32;
const MAX_MEMBERS = 500;
const MAX_ITEMS = 10_000;

/**
 * Scans a text for reasons not to parse it as JSON, before the parser spends time on it; null if there are none. The
 * parser still checks the syntax. RFC 8259 section 4 leaves duplicate names in an object to the reader, so two programs
 * could read two different bodies; many treat `__proto__` specially.
 */
export function faultInJson(text: string): string | null {
  /** Per open object its names, per open list the number of items so far. */
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
      if (innermost.items > MAX_ITEMS) return `a list has more than ${inWords(MAX_ITEMS)} items`;
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

/** Adds a name to its object's names, or returns why it is not allowed. */
function addName(names: Set<string>, quoted: string): string | null {
  const name = unquoted(quoted);
  if (name === null) return null;
  if (names.has(name)) return `the name ${JSON.stringify(name)} occurs twice in one object`;
  if (name === '__proto__') return 'no object may have a member named __proto__';
  if (!name.isWellFormed()) return `the name ${JSON.stringify(name)} has half of a surrogate pair`;
  names.add(name);
  return names.size > MAX_MEMBERS ? `an object has more than ${MAX_MEMBERS} members` : null;
}

/** Decodes a JSON string; null if it is malformed, which the parser then rejects. */
function unquoted(quoted: string): string | null {
  // Most names have no escapes, and calling the parser for each would dominate the running time.
  if (!quoted.includes('\\')) return quoted.slice(1, -1);
  try {
    return JSON.parse(quoted) as string;
  } catch {
    return null;
  }
}

/** The index after the closing quotation mark of the string that begins at `start`, or the end of the text. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  while (at < text.length && text[at] !== '"') at += text[at] === '\\' ? 2 : 1;
  return at + 1;
}

/** Whether the string that ends at `end` is a member's name. */
function isName(text: string, end: number): boolean {
  let at = end;
  while (' \t\n\r'.includes(text[at]!)) at++;
  return text[at] === ':';
}
