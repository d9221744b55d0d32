/**
 * Keeps text from being run as a formula by a spreadsheet program (OWASP, "CSV Injection"). A program set to another
 * locale may split the same line at semicolons, tabs or bars, and does not see our quotation marks when it does, so the
 * text behind each of those and behind a line end is guarded like the first of the cell.
 *
 * The guard is one apostrophe. Text that has apostrophes there already gets one more, so that reading gives every text
 * back to the letter.
 */
const RUN = '=+\\-@＝＋－＠';
const BEGINNING = `^(?='*"*[${RUN}\\t\\r\\n])|(?<=[;|\\t\\r\\n])(?='*"*[${RUN}])`;
const UNGUARDED = new RegExp(BEGINNING, 'g');
const GUARDED = new RegExp(`(?:^|(?<=[;|\\t\\r\\n]))'(?='*"*[${RUN}])|^'(?='*"*[\\t\\r\\n])`, 'g');

export const withGuard = (text: string): string => text.replace(UNGUARDED, "'");
export const withoutGuard = (text: string): string => text.replace(GUARDED, '');
