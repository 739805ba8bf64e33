import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';
import { OPTIONS } from '../bin/arguments.ts';
import { type Read, read, refuse } from '../bin/read.ts';
import { run } from '../bin/run.ts';
import { parseCsv, readChartFile } from '../src/charts/index.ts';
import { parseDrill } from '../src/quiz/index.ts';
import { parseTable } from './bin/markdown.ts';
import {
  allPages,
  codeBlocks,
  codeOf,
  countWords,
  fragmentsOf,
  linksOf,
  type Page,
  pageAt,
  paragraphsOf,
} from './markdown-pages.ts';

const README_WORDS = 700;
/** Longer ones are not read by a player who looks something up. */
const PARAGRAPH_WORDS = 60;

const pages = allPages();
const readme = pageAt('README.md');

describe('README', () => {
  it('opens with the job in one paragraph, and names the two commands', () => {
    const { text } = readme;
    const [title, paragraph] = text.split('\n\n');
    expect(title).toBe('# Throughline');
    expect(paragraph).toMatch(/^Throughline .*aim through.*\.$/s);
    expect(text).toContain('npm ci && npm start');
    expect(text).toContain('npm ci && npm test');
  });

  it(`has at most ${README_WORDS} words`, () => {
    expect(countWords(readme.text)).toBeLessThanOrEqual(README_WORDS);
  });
});

describe('what users read', () => {
  const forUsers = pages.filter(({ path }) => path.startsWith('docs/manual/'));

  it.each(forUsers)(`$path has paragraphs of at most ${PARAGRAPH_WORDS} words`, (page) => {
    const long = paragraphsOf(page).filter((one) => countWords(one) > PARAGRAPH_WORDS);
    expect(long).toEqual([]);
  });

  it('the manual lists each of its pages', () => {
    const listed = linksOf(pageAt('docs/manual/README.md'));
    for (const { path } of forUsers.filter(({ path }) => !path.endsWith('README.md')))
      expect(listed).toContain(path.replace('docs/manual/', ''));
  });
});

describe('every page', () => {
  it.each(pages)('$path links to files and headings that exist', (page) => {
    for (const link of linksOf(page)) expect(brokenIn(page, link), link).toBeNull();
  });

  it.each(pages)('$path shows npm scripts that exist', (page) => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      scripts: Readonly<Record<string, string>>;
    };
    const shown = codeOf(page).flatMap((code) =>
      [...code.matchAll(/\bnpm (?:run (?:-s )?)?([a-z][\w:-]*)/g)].map(([, name = '']) => name),
    );
    expect(shown.filter((name) => name !== 'ci' && !Object.hasOwn(scripts, name))).toEqual([]);
  });
});

/** What is wrong with a link; null if it leads somewhere, or out of the repository. */
function brokenIn({ path }: Page, link: string): string | null {
  if (/^[a-z]+:/i.test(link)) return null;
  const [file = '', fragment] = link.split('#');
  const target = file === '' ? path : normalize(join(dirname(path), file));
  if (!existsSync(target)) return `no file ${target}`;
  if (fragment === undefined || !target.endsWith('.md')) return null;
  return fragmentsOf(pageAt(target)).has(fragment) ? null : `no heading #${fragment} in ${target}`;
}

describe('docs/command-line.md', () => {
  const page = pageAt('docs/command-line.md');
  const blocks = codeBlocks(page);
  const consoles = blocks.filter(({ language }) => language === 'console');
  const calls = consoles.flatMap(({ code, after }) =>
    callsIn(code).map((one) => ({ ...one, after })),
  );

  it('runs only this command, and shows what two calls print', () => {
    expect(calls.every(({ command }) => /^npm run -s chart -- ./.test(command))).toBe(true);
    expect(calls.filter(({ after }) => /^(\||```json)/.test(after)).length).toBe(2);
  });

  it.each(calls)('shows what is printed: $command', ({ command, output, status, after }) => {
    const argv = command.replace('npm run -s chart -- ', '').split(' ');
    const done = run(argv, fileShown);
    expect(done.status, done.stderr).toBe(status);
    if (output !== '') expect(done.stdout + done.stderr).toBe(output);
    const table = /^\|.*?\n\n/s.exec(after);
    if (table) expect(parseTable(table[0])).toEqual(parseTable(done.stdout));
    const json = /^```json\n(.*?)```/s.exec(after);
    if (json) expect(JSON.parse(json[1] ?? '')).toEqual(cut(JSON.parse(done.stdout)));
  });

  it('names every option, and no other', () => {
    const named = [...page.text.matchAll(/--([a-z]+)\b/g)].map(([, name = '']) => name);
    expect([...new Set(named)].sort()).toEqual(Object.keys(OPTIONS).sort());
  });

  /** The last block of JSON is the file that an example takes. */
  function fileShown(path: string): Read<string> {
    const shown = blocks.filter(({ language }) => language === 'json').at(-1);
    return path === 'table.json' && shown ? read(shown.code) : refuse('no file');
  }
});

interface Call {
  readonly command: string;
  readonly output: string;
  readonly status: number;
}

/** Each `$ command` with the lines below it; `$ echo $?` shows the status where it is not 0. */
function callsIn(code: string): readonly Call[] {
  const parts = code.split(/^\$ /m).slice(1);
  const split = parts.map((part) => {
    const [command = '', ...lines] = part.split('\n');
    return { command, output: lines.join('\n') };
  });
  return split.flatMap((part, n) => {
    if (part.command === 'echo $?') return [];
    const next = split[n + 1];
    return [{ ...part, status: next?.command === 'echo $?' ? Number(next.output) : 0 }];
  });
}

/** Decimals as the page shows them. */
function cut(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toFixed(3));
  if (Array.isArray(value)) return value.map(cut);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, cut(inner)]));
}

describe('docs/formats.md', () => {
  const page = pageAt('docs/formats.md');
  const shown = (language: string) =>
    codeBlocks(page).find((block) => block.language === language)?.code ?? '';

  it('shows a chart file that is read', () => {
    expect(readChartFile(shown('json'))).toMatchObject({ ok: true });
  });

  it('shows a table that is read', () => {
    expect(parseCsv(shown('csv'))).toMatchObject({ ok: true, rows: { length: 3 } });
  });

  it('shows a drill code that is read as it says', () => {
    const code = codeOf(page).find((one) => /^1-/.test(one)) ?? '';
    const expected = { seed: 1, patterns: ['cross-side'], tolerance: 1000 };
    expect(parseDrill(code)).toMatchObject({ ok: true, spec: expected });
  });
});
