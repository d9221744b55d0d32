/**
 * The first name that stands twice in one object, which RFC 8259 section 4 leaves to whoever reads it: two programs
 * could read two different bodies. Null where there is none.
 *
 * @param text well-formed JSON
 */
export function nameTwice(text: string): string | null {
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
        if (names.has(name)) return name;
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
