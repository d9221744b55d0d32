import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/** A Markdown table with columns as wide as their cells, readable as plain text. */
export function markdownTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = headings.map((heading, column) =>
    Math.max(3, heading.length, ...rows.map((row) => row[column]!.length)),
  );
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column]!)).join(' | ')} |`;
  return [line(headings), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n');
}

/**
 * Replaces the text between the markers of a section in a page of the docs.
 *
 * @throws if the file or its markers do not exist
 */
export function writeSection(name: string, text: string, file = 'docs/calibration.md'): void {
  const [begin, end] = [`<!-- begin ${name} -->`, `<!-- end ${name} -->`];
  const page = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from === -1 || to < from)
    throw new Error(`${file} has no section ${name}; run this from the root of the repository`);
  writeFileSync(file, `${page.slice(0, from + begin.length)}\n\n${text}\n\n${page.slice(to)}`);
}
