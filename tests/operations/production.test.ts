import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, resolve, sep } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask, killServer, startServer } from '../../bench/serverProcess.js';
import { fourPads, vehicleBody, visitBody } from '../support/bodies.js';

/**
 * An install without development packages, in a folder of its own. With REAL_INSTALL=1, as in CI, npm makes it from the
 * lock file and runs the database driver's own install. Otherwise, to save two minutes, the test copies the packages
 * that the lock file does not mark as development packages.
 */
const IS_REAL = process.env.REAL_INSTALL === '1';

let folder: string;
let program: string;
let file: string;
let installOutput: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'brake-wear-install-'));
  program = join(folder, 'program');
  file = join(folder, 'data', 'brakes.sqlite');
  for (const part of ['package.json', 'package-lock.json', 'scripts', 'migrations', 'dist']) {
    cpSync(part, join(program, part), { recursive: true });
  }
  if (IS_REAL)
    installOutput = run('npm', ['ci', '--omit=dev', '--prefer-offline', '--no-audit', '--no-fund']);
  else copyProductionPackages();
}, 600_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }), 120_000);

function copyProductionPackages(): void {
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { dev?: boolean; devOptional?: boolean }>;
  };
  for (const [path, { dev, devOptional }] of Object.entries(packages)) {
    if (path === '' || dev || devOptional || !existsSync(path)) continue;
    // Nested packages have their own entries in the lock file.
    const filter = (part: string): boolean => !relative(path, part).split(sep).includes('node_modules');
    cpSync(path, join(program, path), { recursive: true, filter });
  }
}

/** Everything a command prints, warnings included. */
function run(command: string, args: string[], env: NodeJS.ProcessEnv = {}): string {
  const script = [command, ...args].map((part) => `'${part}'`).join(' ');
  return execFileSync('sh', ['-c', `${script} 2>&1`], {
    cwd: program,
    encoding: 'utf8',
    env: { ...process.env, DATABASE_FILE: file, ...env },
  });
}

describe('a production install', () => {
  it.runIf(IS_REAL)('the install prints no warning', () => {
    expect(installOutput).not.toMatch(/warn/i);
  });

  it('the install contains no development packages', () => {
    for (const name of ['typescript', 'typescript7', 'lib-r-math.js', 'vitest'])
      expect(existsSync(join(program, 'node_modules', name)), name).toBe(false);
  });

  it('the existing build creates a key, serves a wear answer, refits and backs up', async () => {
    const key = run('npm', [
      'run',
      '--silent',
      'keys',
      '--',
      'create',
      '--role',
      'owner',
      '--name',
      'a',
    ]).trim();
    expect(key).toMatch(/^bws_[\w-]{43}$/);
    const server = startServer(file, { main: join(program, 'dist/src/main.js') });
    try {
      const address = await server.listening;
      const post = async (path: string, body: object): Promise<{ id: string }> => {
        const { status, text } = await ask(address, key, path, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        });
        expect([status, text]).toEqual([201, expect.anything()]);
        return JSON.parse(text);
      };
      const { id } = await post('/v1/vehicles', vehicleBody());
      await post(`/v1/vehicles/${id}/visits`, visitBody('2025-03-03', 39_000, fourPads([8, 8, 8, 8])));
      await post(`/v1/vehicles/${id}/visits`, visitBody('2026-03-02', 61_000, fourPads([6, 6, 6, 6])));
      const { status, text } = await ask(address, key, `/v1/vehicles/${id}/wear`);
      expect(status).toBe(200);
      expect(JSON.parse(text).axles[0].replacement.date.median).toMatch(/^20\d\d-/);
      expect(run('npm', ['run', '--silent', 'refit'])).toMatch(
        /^fitted experience version 1 and recomputed every outlook\n$/,
      );
      expect(run('npm', ['run', '--silent', 'backup', '--', join(folder, 'copy.sqlite')])).toMatch(
        /: verified, with /,
      );
    } finally {
      await killServer(server);
    }
  });

  it('the start says what to do if there is no build and no compiler', () => {
    const bare = join(folder, 'bare');
    for (const part of ['package.json', 'scripts']) {
      cpSync(part, join(bare, part), { recursive: true });
    }
    const attempt = () => execFileSync('npm', ['start', '--silent'], { cwd: bare, stdio: 'pipe' });
    expect(attempt).toThrow(/There is no build in dist, and the compiler is not installed\. Run /);
  });
});

describe('the first start after an install with the compiler', () => {
  it('the start builds once and prints only the key; later starts use that build', () => {
    const fresh = join(folder, 'fresh');
    for (const part of [
      'package.json',
      'scripts',
      'migrations',
      'tsconfig.json',
      'tsconfig.build.json',
      'src',
    ])
      cpSync(part, join(fresh, part), { recursive: true });
    // Only the program without benches, and without checking its types, which `npm run typecheck` does.
    const { compilerOptions, ...rest } = JSON.parse(readFileSync('tsconfig.build.json', 'utf8'));
    const options = { ...rest, compilerOptions: { ...compilerOptions, noCheck: true }, include: ['src'] };
    writeFileSync(join(fresh, 'tsconfig.build.json'), JSON.stringify(options));
    symlinkSync(resolve('node_modules'), join(fresh, 'node_modules'));
    const create = (name: string) =>
      execFileSync('npm', ['run', '--silent', 'keys', '--', 'create', '--role', 'owner', '--name', name], {
        cwd: fresh,
        encoding: 'utf8',
        env: { ...process.env, DATABASE_FILE: join(folder, 'fresh.sqlite') },
      });
    expect(create('first')).toMatch(/^bws_[\w-]{43}\n$/);
    // Another build would rewrite this file.
    writeFileSync(join(fresh, 'dist/src/commands/keys.js'), 'console.log("the existing build");');
    expect(create('second')).toBe('the existing build\n');
  });
});
