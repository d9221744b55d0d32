import { execFileSync, spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hasCommand } from '../support/commands.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'brake-wear-deploy-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** The title, with the reason if the tests are skipped. */
const needing = (command: string, title: string): string =>
  hasCommand(command) ? title : `${title} (skipped: there is no ${command} here)`;

describe.skipIf(!hasCommand('systemd-analyze'))(needing('systemd-analyze', 'the systemd units'), () => {
  const UNITS = ['brake-wear.service', 'brake-wear-backup.service', 'brake-wear-backup.timer'];

  it('the systemd units are valid', () => {
    const { status, stderr } = spawnSync(
      'systemd-analyze',
      ['verify', '--man=no', ...UNITS.map((name) => resolve('deploy', name))],
      { encoding: 'utf8' },
    );
    const warnings = stderr.split('\n').filter((line) => line.includes('brake-wear'));
    expect([status, warnings]).toEqual([0, []]);
  });

  it.each(UNITS.slice(0, 2))('the unit leaves little exposed: %s', (name) => {
    // 0 means nothing is exposed and 10 everything; a service without any restriction has 9.6.
    const { status, stdout } = spawnSync(
      'systemd-analyze',
      ['security', '--offline=true', '--threshold=25', '--no-pager', resolve('deploy', name)],
      { encoding: 'utf8' },
    );
    expect([status, stdout.split('\n').find((line) => line.includes('Overall exposure'))]).toEqual([
      0,
      expect.anything(),
    ]);
  });

  it('the timer makes a backup at half past two each night, or at the next start if the machine was off', () => {
    const { stdout } = spawnSync(
      'systemd-analyze',
      ['calendar', '--base-time=2026-03-10', '*-*-* 02:30:00'],
      {
        encoding: 'utf8',
      },
    );
    expect(stdout).toContain('2026-03-10 02:30:00');
    const timer = readFileSync('deploy/brake-wear-backup.timer', 'utf8');
    expect(timer).toMatch(/^OnCalendar=\*-\*-\* 02:30:00$/m);
    expect(timer).toMatch(/^Persistent=true$/m);
  });
});

describe.skipIf(!hasCommand('caddy'))(needing('caddy', 'the Caddyfile'), () => {
  it('the proxy configuration is valid', () => {
    const args = ['validate', '--adapter', 'caddyfile', '--config', resolve('deploy/Caddyfile')];
    const { status, stdout, stderr } = spawnSync('caddy', args, {
      encoding: 'utf8',
      env: { ...process.env, HOME: root },
    });
    // Caddy writes it to stdout or stderr, depending on its version.
    expect([status, stdout + stderr]).toEqual([0, expect.stringContaining('Valid configuration')]);
  });
});

/** A Dockerfile's instructions by stage, with continued lines joined. */
function stagesOf(text: string): { name: string; steps: [instruction: string, rest: string][] }[] {
  const lines = text
    .replaceAll('\\\n', ' ')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
  const stages: ReturnType<typeof stagesOf> = [];
  for (const line of lines) {
    const [, instruction, rest] = /^(\w+)\s+(.*)$/.exec(line)!;
    if (instruction === 'FROM') stages.push({ name: / AS (\S+)$/.exec(rest!)?.[1] ?? 'final', steps: [] });
    else stages.at(-1)!.steps.push([instruction!, rest!]);
  }
  return stages;
}

/** An unprivileged user instead of the image's user. */
const AS_OTHER_USER =
  process.getuid?.() === 0 ? ['setpriv', '--reuid=65534', '--regid=65534', '--clear-groups', '--'] : [];

describe.skipIf(process.platform !== 'linux')('the Dockerfile', () => {
  it('the Dockerfile’s steps produce a healthy service that does not run as root', async () => {
    const stages = stagesOf(readFileSync('Dockerfile', 'utf8'));
    const env: Record<string, string> = {};
    let command: string[] = [];
    let healthCheck = '';
    let user = 'root';
    chmodSync(root, 0o755);
    for (const { name, steps } of stages) {
      const stage = join(root, name);
      const inStage = (text: string): string => text.replace(/(?<= )\/data\b/g, join(stage, 'data'));
      let folder = stage;
      for (const [instruction, rest] of steps) {
        if (instruction === 'WORKDIR') mkdirSync((folder = join(stage, rest)), { recursive: true });
        else if (instruction === 'COPY') copy(rest, folder);
        else if (instruction === 'RUN') for (const each of rest.split(' && ')) run(inStage(each), folder);
        else if (instruction === 'ENV')
          for (const pair of rest.split(' ')) env[pair.split('=')[0]!] = pair.split('=')[1]!;
        else if (instruction === 'USER') user = rest;
        else if (instruction === 'CMD') command = JSON.parse(rest) as string[];
        else if (instruction === 'HEALTHCHECK') healthCheck = / CMD (.*)$/.exec(rest)![1]!;
      }
    }
    expect(user).toBe('node');
    const folder = join(root, 'final/app');
    const data = join(root, 'final/data');
    if (AS_OTHER_USER.length > 0) execFileSync('chown', ['65534:65534', data]);
    expect((statSync(data).mode & 0o777).toString(8)).toBe('700');
    const settings = {
      ...process.env,
      ...env,
      HOST: '127.0.0.1',
      PORT: '0',
      DATABASE_FILE: join(data, 'brakes.sqlite'),
    };
    const [program, ...args] = [...AS_OTHER_USER, ...command];
    const child = spawn(program!, args, { cwd: folder, env: settings, stdio: ['ignore', 'pipe', 'inherit'] });
    try {
      let stdout = '';
      child.stdout.setEncoding('utf8').on('data', (text: string) => (stdout += text));
      const port = () => /^listening on .*:(\d+)$/m.exec(stdout)?.[1];
      await expect.poll(port, { timeout: 60_000 }).toBeDefined();
      const checked = spawnSync('sh', ['-c', healthCheck], {
        cwd: folder,
        env: { ...settings, PORT: port() },
      });
      expect(checked.status).toBe(0);
      const atNothing = spawnSync('sh', ['-c', healthCheck], {
        cwd: folder,
        env: { ...settings, PORT: '1' },
      });
      expect(atNothing.status).toBe(1);
    } finally {
      child.kill('SIGTERM');
      await new Promise((settle) => child.once('close', settle));
    }
    expect([child.exitCode, existsSync(join(data, 'brakes.sqlite'))]).toEqual([0, true]);
  });

  /** Folders that .dockerignore excludes, and those that only tests use. */
  const IGNORED = readFileSync('.dockerignore', 'utf8')
    .split('\n')
    .filter((line) => line !== '');

  function copy(rest: string, folder: string): void {
    const from = /^--from=(\S+) (.*)$/.exec(rest);
    const [parts, target] = [
      (from?.[2] ?? rest).split(' ').slice(0, -1),
      (from?.[2] ?? rest).split(' ').at(-1)!,
    ];
    for (const part of parts) {
      const source = from ? join(root, from[1]!, part) : resolve(part);
      const to =
        target.endsWith('./') || target === '.'
          ? join(folder, part === '.' ? '' : part.split('/').at(-1)!)
          : join(folder, target);
      cpSync(source, to, {
        recursive: true,
        verbatimSymlinks: true,
        filter: (path) => from !== null || !IGNORED.some((name) => path === resolve(name)),
      });
    }
  }

  /** Skips the install, which production.test.ts covers, and the build, which all tests share. */
  function run(step: string, folder: string): void {
    if (/^apt-get /.test(step) || /^chown /.test(step) || step === 'npm prune --omit=dev') return;
    if (/^npm ci /.test(step)) symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
    else if (step === 'npm run build') cpSync('dist', join(folder, 'dist'), { recursive: true });
    else execFileSync('sh', ['-c', step], { cwd: folder });
  }
});

describe('the project files', () => {
  it('package.json says for every install script whether it runs, so that npm prints no warning', () => {
    const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
      packages: Record<string, { hasInstallScript?: boolean }>;
    };
    const { allowScripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { allowScripts: object };
    const named = Object.keys(packages)
      .filter((path) => packages[path]!.hasInstallScript)
      .map((path) => path.split('node_modules/').at(-1)!);
    expect(named.filter((name) => !(name in allowScripts))).toEqual([]);
  });

  it('all files name the same version', () => {
    const { version, license } = JSON.parse(readFileSync('package.json', 'utf8')) as Record<string, string>;
    expect(readFileSync('CHANGELOG.md', 'utf8')).toContain(`\n## ${version}\n`);
    expect(JSON.parse(readFileSync('package-lock.json', 'utf8')).version).toBe(version);
    expect([license, readFileSync('LICENSE', 'utf8').split('\n', 1)[0]]).toEqual(['MIT', 'MIT License']);
  });
});
