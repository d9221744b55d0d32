import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

/** The machine's Chromium; the tests bring none of their own. */
const EXECUTABLE = [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser'].find(
  (path) => path !== undefined && existsSync(path),
);

/** Whether there is a browser; prints a line if there is none. */
export function hasBrowser(): boolean {
  if (EXECUTABLE !== undefined) return true;
  process.stderr.write(
    'No Chromium on this machine: the tests of the pages in a browser are SKIPPED. CHROMIUM names one.\n',
  );
  return false;
}

export function launchBrowser(): Promise<Browser> {
  // Chromium's own sandbox refuses to run as root.
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({ executablePath: EXECUTABLE!, args });
}
