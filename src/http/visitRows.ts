import { CsvError, parse, type Parser } from 'csv-parse';
import { setImmediate } from 'node:timers/promises';
import { readHeader, rowReader, type RowReader, type SheetRow } from '../core/spreadsheet/cells.js';
import { toColumn } from '../core/spreadsheet/columns.js';
import type { DateForm } from '../core/spreadsheet/dates.js';
import type { FilePiece } from '../store/contract/imports.js';
import { emptyPiece, faultyPiece, FileFault, textOf, type Encoding } from './files.js';

const SEPARATORS = [',', ';', '\t'] as const;
/** Far longer than any real header row and first row; stops an unclosed quote from buffering the whole file. */
const MAX_HEADER_LENGTH = 16_384;
const MAX_ROW_LENGTH = 262_144;
const LINE_END = /\r\n|\r|\n/;

/**
 * Reads a spreadsheet of visits in pieces: RFC 4180, also with semicolons or tabs as separators. A first line such as
 * `sep=;` sets the separator. If the file becomes unreadable, the last piece says why.
 */
export async function* visitRows(
  bytes: AsyncIterable<Buffer>,
  { encoding, dates = 'YYYY-MM-DD' }: { encoding?: Encoding; dates?: DateForm } = {},
): AsyncGenerator<FilePiece<SheetRow>> {
  let head = '';
  let file: CsvFile | null = null;
  try {
    for await (const text of textOf(bytes, encoding)) {
      if (file) {
        yield await file.read(text);
      } else {
        head += text;
        if (!hasHeader(head) && head.length < MAX_HEADER_LENGTH) continue;
        file = new CsvFile(head, dates);
        yield await file.read(afterSeparatorLine(head));
      }
      if (file.isRefused) return;
    }
    if (!file) {
      file = new CsvFile(head, dates);
      yield await file.read(afterSeparatorLine(head));
    }
    if (!file.isRefused) yield await file.end();
  } catch (fault) {
    if (!(fault instanceof FileFault)) throw fault;
    yield faultyPiece(fault, file?.line ?? 1);
  }
}

/** A line that some spreadsheet programs write before the header row. */
const SEPARATOR_LINE = /^"?sep=(?<separator>[,;\t])"?(?:\r\n|\r|\n|$)/i;
const afterSeparatorLine = (head: string): string => head.replace(SEPARATOR_LINE, '');
/** Whether the header row is complete. */
const hasHeader = (head: string): boolean =>
  !/^"?s(e(p(=.?)?)?)?"?\r?$/i.test(head) && /[\r\n]/.test(afterSeparatorLine(head));

/** The separator that the file names; otherwise the separator that yields the most known column names. */
function separatorOf(head: string): string {
  const named = SEPARATOR_LINE.exec(head)?.groups?.separator;
  if (named !== undefined) return named;
  const [header] = head.split(/[\r\n]/, 1);
  const known = (separator: string): number =>
    header!.split(separator).filter((name) => toColumn(name.replaceAll('"', '')) !== undefined).length;
  return SEPARATORS.reduce((best, separator) => (known(separator) > known(best) ? separator : best));
}

class CsvFile {
  /** The line on which the next row begins. Counted here because a row may span several lines. */
  line: number;
  /** Whether the header row was rejected. */
  isRefused = false;
  private readonly parser: Parser;
  private reader: RowReader | null = null;
  private piece = emptyPiece<SheetRow>();
  private fault: Error | null = null;

  private readonly separator: string;

  /** @param head the beginning of the file, including its header row */
  constructor(
    head: string,
    private readonly dates: DateForm,
  ) {
    this.separator = separatorOf(head);
    this.line = SEPARATOR_LINE.test(head) ? 2 : 1;
    this.parser = parse({
      delimiter: this.separator,
      relax_column_count: true,
      max_record_size: MAX_ROW_LENGTH,
    });
    this.parser.on('data', (texts: string[]) => this.take(texts));
    this.parser.on('error', (fault) => (this.fault = fault));
  }

  read(text: string): Promise<FilePiece<SheetRow>> {
    return this.readPiece((done) => this.parser.write(text, done));
  }

  async end(): Promise<FilePiece<SheetRow>> {
    const piece = await this.readPiece((done) => this.parser.end(done));
    if (this.reader || this.isRefused) return piece;
    return faultyPiece(new FileFault('empty-file', 'the file is empty'), 1);
  }

  private async readPiece(
    write: (done: (fault?: Error | null) => void) => void,
  ): Promise<FilePiece<SheetRow>> {
    await new Promise<void>((resolve) => write(() => resolve()));
    // The parser emits its rows in later ticks.
    await setImmediate();
    const { piece, fault } = this;
    this.piece = emptyPiece();
    if (!fault) return piece;
    if (!(fault instanceof CsvError)) throw fault;
    const detail = `the server cannot read the row that begins here as CSV; a closing quote is often missing: ${fault.message}`;
    piece.errors.push({ line: this.line, column: null, detail, code: 'not-csv' });
    this.isRefused = true;
    return piece;
  }

  private take(texts: string[]): void {
    const { line } = this;
    this.line += 1;
    for (const text of texts) if (LINE_END.test(text)) this.line += text.split(LINE_END).length - 1;
    if (this.isRefused) return;
    if (!this.reader) {
      const { columns, errors } = readHeader(texts);
      this.piece.errors.push(...errors.map((error) => ({ ...error, line })));
      this.isRefused = errors.length > 0;
      this.reader = rowReader(columns, this.separator, this.dates);
      return;
    }
    const row = this.reader(line, texts);
    if (Array.isArray(row)) {
      this.piece.errors.push(...row);
      this.piece.unread += 1;
    } else if (row) {
      this.piece.rows.push(row);
    }
  }
}
