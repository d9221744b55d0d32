/**
 * Keeps a spreadsheet program from running text as a formula (OWASP, "CSV Injection"). A program set to another locale
 * may split the same line at semicolons, tabs or bars, and then ignores our quotation marks. So text after each of
 * those, and after a line end, is guarded like text at the start of the cell.
 *
 * The guard is one apostrophe. Text that already has apostrophes there gets one more, so that reading restores every
 * text exactly.
 */
const RUN = '=+\\-@＝＋－＠';
const BEGINNING = `^(?='*"*[${RUN}\\t\\r\\n])|(?<=[;|\\t\\r\\n])(?='*"*[${RUN}])`;
const UNGUARDED = new RegExp(BEGINNING, 'g');
const GUARDED = new RegExp(`(?:^|(?<=[;|\\t\\r\\n]))'(?='*"*[${RUN}])|^'(?='*"*[\\t\\r\\n])`, 'g');

export const withGuard = (text: string): string => text.replace(UNGUARDED, "'");
export const withoutGuard = (text: string): string => text.replace(GUARDED, '');
