/**
 * What is wrong with the names of members; null where nothing is. A name that stands twice in one object is left by RFC
 * 8259 section 4 to whoever reads it, so that two programs could read two different bodies; and `__proto__` would be
 * taken for something else than a member by many.
 *
 * @param text well-formed JSON
 */
export function faultInNames(text: string): string | null {
  /** The names of every object that is open; null for a list. */
  const open: (Set<string> | null)[] = [];
  for (let at = 0; at < text.length; at++) {
    const character = text[at];
    if (character === '{') open.push(new Set());
    else if (character === '[') open.push(null);
    else if (character === '}' || character === ']') open.pop();
    else if (character === '"') {
      const end = endOfString(text, at);
      const names = open.at(-1);
      if (names && isName(text, end)) {
        const name = JSON.parse(text.slice(at, end)) as string;
        if (names.has(name)) return `the name ${JSON.stringify(name)} stands twice in one object`;
        if (name === '__proto__') return 'no object may have a member named __proto__';
        names.add(name);
      }
      at = end - 1;
    }
  }
  return null;
}

/** Behind the closing quotation mark of the string that begins at a place. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  while (text[at] !== '"') at += text[at] === '\\' ? 2 : 1;
  return at + 1;
}

/** Whether the string that ends at a place is a member's name. */
function isName(text: string, end: number): boolean {
  let at = end;
  while (' \t\n\r'.includes(text[at]!)) at++;
  return text[at] === ':';
}
