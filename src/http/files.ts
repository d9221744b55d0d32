import { createHash, randomUUID } from 'node:crypto';
import { open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { itemAt } from '../core/items.js';
import type { FilePiece } from '../store/contract/imports.js';
import { HttpProblem } from './problems.js';

/** A complete request body, stored on disk. */
export interface ReceivedFile {
  sha256: string;
  /** Text encoding, as detected from the bytes. */
  encoding: Encoding;
  /** Reads the bytes from the beginning. */
  bytes(): AsyncIterable<Buffer>;
  discard(): Promise<void>;
}

/**
 * Writes a body to disk as fast as it arrives. The file is unlinked as soon as it is created, so that nothing remains
 * when the process ends.
 *
 * @throws HttpProblem when it is larger than `maxBytes`
 */
export async function receiveFile(body: Readable, maxBytes: number): Promise<ReceivedFile> {
  const path = join(tmpdir(), `brake-wear-${randomUUID()}`);
  const file = await open(path, 'wx+', 0o600);
  const hash = createHash('sha256');
  const encoding = encodingFinder();
  let bytes = 0;
  try {
    await rm(path);
    // Keep the connection open if the loop ends early, so that the refusal can still be sent.
    for await (const chunk of body.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      bytes += chunk.length;
      if (bytes > maxBytes) {
        throw new HttpProblem(
          'body-too-large',
          `the largest file accepted is ${maxBytes / 2 ** 20} MiB`,
          [],
          {
            connection: 'close',
          },
        );
      }
      hash.update(chunk);
      encoding.look(chunk);
      await file.writeFile(chunk);
    }
  } catch (fault) {
    await file.close();
    throw fault;
  }
  return {
    sha256: hash.digest('hex'),
    encoding: encoding.found(),
    bytes: () => file.createReadStream({ start: 0, autoClose: false }) as AsyncIterable<Buffer>,
    discard: () => file.close(),
  };
}

/** The file cannot be read from some point on. */
export class FileFault extends Error {
  constructor(
    readonly code: string,
    detail: string,
  ) {
    super(detail);
  }
}

export const ENCODINGS = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof ENCODINGS)[number];

/**
 * Detects the text encoding. UTF-16 starts with a byte order mark or has a zero byte in its first character. Invalid
 * UTF-8 counts as Windows-1252, unless valid non-ASCII UTF-8 came before it: then the file is damaged, and reading it
 * as UTF-8 fails.
 */
export function encodingFinder() {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let first: Buffer = Buffer.alloc(0);
  let isUtf8 = true;
  let isBeyondAscii = false;
  const decode = (chunk?: Buffer): void => {
    if (!isUtf8) return;
    try {
      isBeyondAscii ||= /[^\0-\x7f]/.test(decoder.decode(chunk, { stream: chunk !== undefined }));
    } catch {
      isUtf8 = false;
      const until = itemAt(new TextDecoder('utf-8').decode(chunk).split('\ufffd', 1), 0);
      isBeyondAscii ||= /[^\0-\x7f]/.test(until);
    }
  };
  return {
    look(chunk: Buffer): void {
      if (first.length < 2) first = Buffer.concat([first, chunk.subarray(0, 2)]);
      decode(chunk);
    },
    found(): Encoding {
      decode();
      const [one, two] = first;
      if ((one === 0xff && two === 0xfe) || (one !== 0 && two === 0)) return 'utf-16le';
      if ((one === 0xfe && two === 0xff) || (one === 0 && two !== undefined)) return 'utf-16be';
      return isUtf8 || isBeyondAscii ? 'utf-8' : 'windows-1252';
    },
  };
}

/** The text of a file without its byte order mark. */
export async function* textOf(
  bytes: AsyncIterable<Buffer>,
  encoding: Encoding = 'utf-8',
): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding, { fatal: true });
  const decode = (chunk?: Buffer): string => {
    try {
      return decoder.decode(chunk, { stream: chunk !== undefined });
    } catch {
      const detail = `the text is not valid ${encoding.toUpperCase()} from about here on; save the file as UTF-8`;
      throw new FileFault('not-utf-8', detail);
    }
  };
  for await (const chunk of bytes) yield decode(chunk);
  yield decode();
}

export const emptyPiece = <Row>(): FilePiece<Row> => ({ rows: [], errors: [], unread: 0 });

/** The piece that reports a file as unreadable from a given line on. */
export const faultyPiece = <Row>({ message, code }: FileFault, line: number): FilePiece<Row> => ({
  rows: [],
  errors: [{ line, column: null, detail: message, code }],
  unread: 0,
});
