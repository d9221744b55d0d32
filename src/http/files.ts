import { createHash, randomUUID } from 'node:crypto';
import { open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import type { FilePiece } from '../store/store.js';
import { HttpProblem } from './problems.js';

/** A body that has come in whole and lies on disk. */
export interface ReceivedFile {
  sha256: string;
  /** Its bytes, from the beginning. */
  bytes(): AsyncIterable<Buffer>;
  discard(): Promise<void>;
}

/**
 * Takes a body in as fast as it comes, whatever is done with it later. The file has no name from its first moment, so
 * that nothing is left of it when the process ends.
 *
 * @throws HttpProblem when it is larger than `mostBytes`
 */
export async function receiveFile(body: Readable, mostBytes: number): Promise<ReceivedFile> {
  const path = join(tmpdir(), `brake-wear-${randomUUID()}`);
  const file = await open(path, 'wx+', 0o600);
  const hash = createHash('sha256');
  let bytes = 0;
  try {
    await rm(path);
    // Left open when this ends early, so that the refusal can still be answered.
    for await (const chunk of body.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      bytes += chunk.length;
      if (bytes > mostBytes) {
        throw new HttpProblem('body-too-large', `a file may have ${mostBytes / 2 ** 20} MiB`, [], {
          connection: 'close',
        });
      }
      hash.update(chunk);
      await file.writeFile(chunk);
    }
  } catch (fault) {
    await file.close();
    throw fault;
  }
  return {
    sha256: hash.digest('hex'),
    bytes: () => file.createReadStream({ start: 0, autoClose: false }) as AsyncIterable<Buffer>,
    discard: () => file.close(),
  };
}

/** The file is of no use from here on. */
export class FileFault extends Error {
  constructor(
    readonly code: string,
    detail: string,
  ) {
    super(detail);
  }
}

/** The text of a file in UTF-8, without its byte order mark. */
export async function* utf8Text(bytes: AsyncIterable<Buffer>): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const decode = (chunk?: Buffer): string => {
    try {
      return decoder.decode(chunk, { stream: chunk !== undefined });
    } catch {
      throw new FileFault('not-utf-8', 'from about here on the file is not UTF-8: save it as UTF-8');
    }
  };
  for await (const chunk of bytes) yield decode(chunk);
  yield decode();
}

export const emptyPiece = <Row>(): FilePiece<Row> => ({ rows: [], errors: [], unread: 0 });

/** What is told of a file that cannot be read on from a line. */
export const faultyPiece = <Row>({ message, code }: FileFault, line: number): FilePiece<Row> => ({
  rows: [],
  errors: [{ line, column: null, detail: message, code }],
  unread: 0,
});
