import { readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';

const TOKENS = 'src/app/style/tokens.css';

const sheets = filesIn('src', '.css').map((path) => ({ path, rules: withoutComments(read(path)) }));
const modules = filesIn('src', '.tsx').map((path) => ({ path, code: read(path) }));
const scripts = modules.map(({ code }) => code).join('\n');
const declarations = sheets.flatMap(({ path, rules }) => declarationsIn(path, rules));
const tokens = definedIn(withoutComments(read(TOKENS)));

/** Lengths that are no step of the scale, each for a reason of its own. */
const OFF_THE_SCALE: readonly string[] = [
  // The notices above a screen end where a page of 62rem without its padding does.
  'src/app/style/shell.css: padding-inline: max(var(--space-4), calc((100% - 60rem) / 2))',
];

/** From here on, rem, a height is that of a box with several lines in it, not of one thing pressed. */
const SEVERAL_LINES = 4;

describe('stylesheets', () => {
  it('use only custom properties that are defined', () => {
    const missing = sheets.flatMap(({ path, rules }) => {
      const own = definedIn(rules);
      // A fallback says what holds where nothing defines it.
      return [...rules.matchAll(/var\((--[\w-]+)\s*\)/g)]
        .map(([, name = '']) => name)
        .filter((name) => !tokens.has(name) && !own.has(name) && !scripts.includes(`'${name}'`))
        .map((name) => `${path}: ${name}`);
    });
    expect(missing).toEqual([]);
  });

  it('define no token that nothing uses', () => {
    const all = [...sheets.map(({ rules }) => rules), scripts].join('\n');
    expect([...tokens].filter((name) => !all.includes(`var(${name}`))).toEqual([]);
  });

  it('take margins, paddings and gaps from the scale', () => {
    const odd = declarations
      .filter(({ name }) => /^(margin|padding|(row-|column-)?gap|scroll-margin)/.test(name))
      .filter(({ value }) => /\d(rem|em|px)\b/.test(value))
      // In em it goes with the letters beside it; 1 and 2 px are the width of a line.
      .filter(({ value }) => !/^-?[\d.]+em$|^[12]px$/.test(value));
    expect(odd.map(inWords).filter((line) => !OFF_THE_SCALE.includes(line))).toEqual([]);
  });

  it('take the height of what is pressed from the tokens', () => {
    const odd = declarations
      .filter(({ name }) => name === 'min-height')
      .filter(({ value }) =>
        [...value.matchAll(/([\d.]+)rem/g)].some(([, size]) => Number(size) < SEVERAL_LINES),
      );
    expect(odd.map(inWords)).toEqual([]);
  });

  // In a drawing letters have its own unit, and on paper points.
  it.each([
    ['font-size', /[\d.]rem/],
    ['font-weight', /\d/],
    ['font', /^\d/],
    ['border-radius', /[\d.]rem/],
  ])('take %s from the tokens', (property, odd) => {
    const found = declarations.filter(({ name, value }) => name === property && odd.test(value));
    expect(found.map(inWords)).toEqual([]);
  });

  it('are each imported by a module', () => {
    const imported = modules.flatMap(({ path, code }) =>
      [...code.matchAll(/^import '(.+\.css)';$/gm)].map(([, from = '']) =>
        posix.join(posix.dirname(path), from),
      ),
    );
    expect([...new Set(imported)].sort()).toEqual(sheets.map(({ path }) => path));
  });

  it('style no class that no module has', () => {
    const code = filesIn('src', '.ts', '.tsx').map(read).join('\n');
    const words = new Set(code.match(/[A-Za-z][\w-]*/g));
    // "kick only" becomes the class kick-only.
    const isNamed = (name: string) =>
      words.has(name) || name.split('-').every((one) => words.has(one));
    const unused = sheets.flatMap(({ path, rules }) =>
      [...selectorsIn(rules).matchAll(/\.([A-Za-z][\w-]*)/g)]
        .filter(([, name = '']) => !isNamed(name))
        .map(([name]) => `${path}: ${name}`),
    );
    expect(unused).toEqual([]);
  });
});

interface Declaration {
  readonly path: string;
  readonly name: string;
  readonly value: string;
}

function inWords({ path, name, value }: Declaration): string {
  return `${path}: ${name}: ${value}`;
}

function filesIn(folder: string, ...endings: readonly string[]): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => posix.join(folder, ...name.split(/[\\/]/)))
    .filter((path) => endings.some((ending) => path.endsWith(ending)))
    .sort();
}

function read(path: string): string {
  return readFileSync(path, 'utf8');
}

function withoutComments(css: string): string {
  return css.replaceAll(/\/\*[\s\S]*?\*\//g, '');
}

function definedIn(css: string): ReadonlySet<string> {
  return new Set([...css.matchAll(/[{;]\s*(--[\w-]+)\s*:/g)].map(([, name = '']) => name));
}

function declarationsIn(path: string, css: string): readonly Declaration[] {
  return [...css.matchAll(/[{;]\s*([a-z-]+)\s*:\s*([^;{}]+);/g)].map(
    ([, name = '', value = '']) => ({ path, name, value: value.replaceAll(/\s+/g, ' ') }),
  );
}

/** What stands before each block of declarations. */
function selectorsIn(css: string): string {
  return css.replaceAll(/\{[^{}]*\}/g, '{}');
}
