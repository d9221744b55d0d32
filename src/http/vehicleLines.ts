import { schemaIssues } from '../core/vocabulary/issues.js';
import { VehicleBody } from '../core/vocabulary/vehicle.js';
import type { FilePiece, VehicleLine } from '../store/contract/imports.js';
import { faultInJson } from './json.js';
import { emptyPiece, faultyPiece, FileFault, textOf } from './files.js';

const MAX_LINE_LENGTH = 262_144;

/** Reads JSON Lines in pieces, one vehicle per line in the form of `POST /v1/vehicles`. */
export async function* vehicleLines(bytes: AsyncIterable<Buffer>): AsyncGenerator<FilePiece<VehicleLine>> {
  let line = 0;
  let rest = '';
  try {
    for await (const text of textOf(bytes)) {
      const lines = (rest + text).split('\n');
      rest = lines.pop()!;
      const piece = emptyPiece<VehicleLine>();
      for (const one of lines) readLine(piece, ++line, one);
      if (rest.length > MAX_LINE_LENGTH) throw new FileFault('not-json', 'this line is too long');
      yield piece;
    }
    const piece = emptyPiece<VehicleLine>();
    readLine(piece, line + 1, rest);
    yield piece;
  } catch (fault) {
    if (!(fault instanceof FileFault)) throw fault;
    yield faultyPiece(fault, line + 1);
  }
}

function readLine(piece: FilePiece<VehicleLine>, line: number, text: string): void {
  const { rows, errors } = piece;
  if (text.trim() === '') return;
  const refuse = (detail: string): void => {
    piece.unread += 1;
    errors.push({ line, column: null, detail, code: 'not-json' });
  };
  const fault = faultInJson(text);
  if (fault !== null) {
    refuse(fault);
    return;
  }
  let sent: unknown;
  try {
    sent = JSON.parse(text);
  } catch (notJson) {
    refuse((notJson as Error).message);
    return;
  }
  const result = VehicleBody.safeParse(sent);
  if (result.success) {
    rows.push({ line, body: result.data });
    return;
  }
  piece.unread += 1;
  for (const { path, detail } of schemaIssues(result.error.issues)) {
    errors.push({ line, column: path.map(String).join('.') || null, detail, code: 'invalid' });
  }
}
