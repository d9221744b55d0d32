import { spawn } from 'node:child_process';
import { isDeepStrictEqual } from 'node:util';

/**
 * Pages with calls in `sh` blocks, some followed by the answer in a `json` or `text` block. An answer may be shown in
 * part: `…` matches anything, and at the end of a list or of the lines, all that follows.
 */

export interface Step {
  command: string;
  answer: { language: 'json' | 'text'; text: string } | null;
}

const BLOCK = /^```(\w+)\n([\s\S]*?)^```$/gm;

export function stepsOf(page: string): Step[] {
  const steps: Step[] = [];
  for (const [, language, text] of page.matchAll(BLOCK)) {
    if (language === 'sh') steps.push({ command: text!, answer: null });
    else if (language === 'json' || language === 'text') steps.at(-1)!.answer = { language, text: text! };
  }
  return steps;
}

/** The page with its answers replaced. */
export function withAnswers(page: string, answers: readonly (string | null)[]): string {
  let index = -1;
  return page.replace(BLOCK, (block, language: string) => {
    if (language === 'sh') index += 1;
    const answer = language === 'json' || language === 'text' ? answers[index] : null;
    return answer == null ? block : `\`\`\`${language}\n${answer}\n\`\`\``;
  });
}

const END_OF_STEP = '\x1e';

/**
 * Runs the commands in order in one shell, and returns what each printed.
 *
 * @param through a command that starts the shell, such as one that changes the user
 */
export async function runInShell(
  steps: readonly Step[],
  folder: string,
  environment: Record<string, string>,
  through: readonly string[] = [],
): Promise<string[]> {
  const script = steps.map(({ command }) => `${command}\nprintf '${END_OF_STEP}'\n`).join('');
  const [command, ...given] = [...through, 'bash', '-eu', '-o', 'pipefail', '-c', script];
  const shell = spawn(command!, given, {
    cwd: folder,
    env: { ...process.env, ...environment },
  });
  let printed = '';
  let errors = '';
  shell.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text));
  shell.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text));
  const code = await new Promise((resolve) => shell.once('close', resolve));
  const parts = printed.split(END_OF_STEP).slice(0, -1);
  if (code !== 0) throw new Error(`${steps[parts.length]?.command ?? ''}\nended with ${code}: ${errors}`);
  return parts;
}

/** The answer as the page would show it, in the page's own form. */
export function shownOf(answer: NonNullable<Step['answer']>, actual: string): unknown {
  return answer.language === 'json'
    ? filled(JSON.parse(answer.text), JSON.parse(actual))
    : linesOf(answer.text.trimEnd(), actual.trimEnd());
}

export function isShown(answer: NonNullable<Step['answer']>, actual: string): boolean {
  const shown = shownOf(answer, actual);
  return answer.language === 'json'
    ? isDeepStrictEqual(shown, JSON.parse(answer.text))
    : shown === answer.text.trimEnd();
}

const ANYTHING = '…';

function filled(excerpt: unknown, actual: unknown): unknown {
  if (excerpt === ANYTHING) return actual === undefined ? undefined : ANYTHING;
  if (typeof excerpt === 'string' && typeof actual === 'string')
    return fits(excerpt, actual) ? excerpt : actual;
  if (Array.isArray(excerpt) && Array.isArray(actual)) {
    const open = excerpt.at(-1) === ANYTHING;
    const shownItems = open ? excerpt.slice(0, -1) : excerpt;
    const rest = open ? [ANYTHING] : actual.slice(shownItems.length);
    return [...shownItems.map((item, index) => filled(item, (actual as unknown[])[index])), ...rest];
  }
  if (isObject(excerpt) && isObject(actual)) {
    return Object.fromEntries(
      Object.entries(excerpt).map(([name, member]) => [name, filled(member, actual[name])]),
    );
  }
  return actual;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Whether a text matches a pattern in which `…` matches any part. */
function fits(pattern: string, text: string): boolean {
  const parts = pattern.split(ANYTHING).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^${parts.join('[^]*')}$`).test(text);
}

function linesOf(excerpt: string, actual: string): string {
  const lines = actual.split(/\r?\n/);
  const shownLines = excerpt.split('\n');
  const open = shownLines.at(-1) === ANYTHING;
  const shown = (open ? shownLines.slice(0, -1) : shownLines).map((line, index) =>
    lines[index] !== undefined && fits(line, lines[index]) ? line : (lines[index] ?? ''),
  );
  return [...shown, ...(open ? [ANYTHING] : lines.slice(shownLines.length))].join('\n');
}
