import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import openapiTypes, { astToString } from 'openapi-typescript';
import { buildApp } from '../../src/app.js';
import { openStore } from '../../src/store/open.js';

/** Writes the client's types from the OpenAPI document that the service serves. Run it with `npm run client`. */

/** The types of all requests and answers, as TypeScript source. */
export async function clientTypes(document: string): Promise<string> {
  // A request may omit a member that has a default.
  const types = astToString(await openapiTypes(document, { defaultNonNullable: false }));
  return `/** Generated from the service's OpenAPI document by \`npm run client\`. Do not edit. */\n${types}`;
}

async function servedDocument(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'brake-wear-document-'));
  const clock = (): Date => new Date();
  const store = await openStore({ file: join(folder, 'brakes.sqlite'), timeZone: 'UTC', clock });
  const config = {
    timeZone: 'UTC',
    rateLimitPerMinute: 0,
    failedKeysPerMinute: 0,
    webhookAllowPrivate: false,
  };
  const app = await buildApp({ store, config, clock });
  try {
    return (await app.inject('/openapi.json')).body;
  } finally {
    await app.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1]?.endsWith('generate.js')) {
  writeFileSync('clients/typescript/schema.d.ts', await clientTypes(await servedDocument()));
}
