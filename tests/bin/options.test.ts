import { describe, expect, it } from 'vitest';
import { OPTIONS } from '../../bin/arguments.ts';
import { type Command, parseOptions } from '../../bin/options.ts';
import { type Read, read, refuse } from '../../bin/read.ts';
import { anchorBound, PATTERNS, patternOf, toDecimal, toNumber } from '../../src/charts/index.ts';
import { CLUB_CLOTH, NAMINGS, POCKET_SIZES, TABLES, withPockets } from '../../src/table/index.ts';

const FILES: Readonly<Record<string, string>> = {
  'dead.json': '{ "restitution": 0.7, "speeds": { "firm": 5 } }',
  'marked.json': '\uFEFF{"noseFriction": 0.1}',
  'all.json': JSON.stringify({ ...CLUB_CLOTH, spinDecay: 12 }),
  'broken.json': '{ "restitution": ',
  'stray.json': '{ "restitutoin": 0.7 }',
  'wild.json': '{ "restitution": 3 }',
  'paces.json': '{ "speeds": { "soft": 9 } }',
  'list.json': '[0.7]',
};

describe('a pattern alone', () => {
  it.each(PATTERNS.map(({ id }) => id))('%s gets the default table and condition', (id) => {
    const { setting, route, starts, printStep, naming, stroke, anchorBound: bound } = request(id);
    const pattern = patternOf(id);
    expect(setting).toEqual({ table: TABLES['9ft'], condition: CLUB_CLOTH });
    expect(route).toBe(pattern);
    expect(stroke).toEqual(pattern.stroke ?? {});
    const [first, last] = pattern.starts;
    expect(starts.map(toNumber)).toEqual(
      Array.from({ length: (last - first) / 0.5 + 1 }, (_, n) => first + n / 2),
    );
    expect([toNumber(printStep), naming, bound]).toEqual([0.1, 'through', 0.06]);
  });

  it('prints JSON unless another format is given', () => {
    for (const format of ['json', 'csv', 'md']) {
      expect(accepted('--pattern cross-side', `--format=${format}`)).toMatchObject({ format });
    }
    expect(accepted('--pattern cross-side')).toMatchObject({ what: 'sheet', format: 'json' });
    expect(accepted('--list --format md')).toEqual({ what: 'list', format: 'md' });
    expect(accepted('-h')).toEqual({ what: 'help' });
  });
});

describe('starts', () => {
  it.each([
    ['1:8:0.5', Array.from({ length: 15 }, (_, n) => 1 + n / 2)],
    ['2:3:0.1', [2, 2.1, 2.2, 2.3, 2.4, 2.5, 2.6, 2.7, 2.8, 2.9, 3]],
    ['2:3:0.4', [2, 2.4, 2.8]],
    ['4:4:1', [4]],
    ['3', [3]],
    ['0,2.5,8', [0, 2.5, 8]],
  ])('%s are counted exactly', (text, starts) => {
    expect(request('foot-to-side', `--starts=${text}`).starts.map(toNumber)).toEqual(starts);
  });
});

describe('speeds', () => {
  it.each([
    ['soft,medium,firm', CLUB_CLOTH.speeds],
    ['2.2,3.1,4.6', { soft: 2.2, medium: 3.1, firm: 4.6 }],
    ['soft,3,firm', { ...CLUB_CLOTH.speeds, medium: 3 }],
  ])('%s are what soft, medium and firm stand for', (text, speeds) => {
    const { setting } = request('cross-side', `--speeds ${text}`);
    expect(setting.condition).toEqual({ ...CLUB_CLOTH, speeds });
  });

  it('replace those of a condition file one by one', () => {
    const { setting } = request('cross-side', '--speeds 2,medium,firm --condition dead.json');
    expect(setting.condition.speeds).toEqual({ soft: 2, medium: 3.129, firm: 5 });
  });
});

describe('the rest', () => {
  it.each([
    ['dead.json', { restitution: 0.7, speeds: { ...CLUB_CLOTH.speeds, firm: 5 } }],
    ['marked.json', { noseFriction: 0.1 }],
    ['all.json', { spinDecay: 12 }],
  ])('a condition file %s gets its missing fields from the default', (file, change) => {
    const { setting } = request('cross-side', `--condition ${file}`);
    expect(setting.condition).toEqual({ ...CLUB_CLOTH, ...change });
  });

  it('every table takes every pocket size', () => {
    for (const [size, table] of Object.entries(TABLES)) {
      for (const pockets of Object.keys(POCKET_SIZES) as (keyof typeof POCKET_SIZES)[]) {
        const { setting } = request('cross-side', `--table ${size} --pockets ${pockets}`);
        expect(setting.table).toEqual(withPockets(table, pockets));
      }
    }
  });

  it('a target is a point on the rail where the pattern ends', () => {
    expect(request('up-and-back', '--target 2,5').route.target).toEqual({
      kind: 'rail',
      count: { rail: 'head', from: 'left' },
      diamond: 2.5,
    });
  });

  it('naming, printed step and tolerance reach the request', () => {
    for (const naming of NAMINGS) {
      expect(request('cross-side', `--naming ${naming}`).naming).toBe(naming);
    }
    expect(toNumber(request('cross-side', '--step 0.05').printStep)).toBe(0.05);
    const { anchorBound: bound } = request('cross-side', '--step 0.05 --tolerance 0.2');
    expect(bound).toBe(anchorBound(toDecimal(0.2)));
  });

  it('a stroke is the pattern’s own except for what is given; a minus needs no equals sign', () => {
    expect(request('cross-side', '--follow -0.2 --side 0.3 --along 0.25').stroke).toEqual({
      follow: -0.2,
      side: 0.3,
      along: 0.25,
    });
    expect(request('three-cushion', '--follow 0.1').stroke).toEqual({ running: 0.4, follow: 0.1 });
    expect(request('three-cushion', '--running 0').stroke).toEqual({ running: 0 });
    expect(request('three-cushion', '--side 0.2').stroke).toEqual({ side: 0.2 });
  });
});

describe('a refusal names the valid values in one sentence', () => {
  const ids = PATTERNS.map(({ id }) => id).join(', ');
  const options = Object.keys(OPTIONS).map((name) => `--${name}`);
  const fields = Object.keys(CLUB_CLOTH).join(', ');
  const side = '--pattern cross-side';
  it.each([
    ['--ratio 3', ['--ratio', options.join(', ')]],
    ['-x', ['-x', options.join(', ')]],
    ['cross-side', ['"cross-side"', options.join(', ')]],
    ['-- cross-side', ['"cross-side"', options.join(', ')]],
    ['--list=yes', ['--list']],
    [`${side} ${side}`, ['--pattern', 'twice']],
    ['', ['--pattern', ids]],
    ['--table 9ft', ['--pattern', ids]],
    ['--pattern', ['--pattern', ids]],
    ['--pattern --list', ['--pattern', ids]],
    ['--pattern over-the-top', ['"over-the-top"', ids]],
    ['--pattern toString', ['"toString"', ids]],
    [`${side} --table 12ft`, ['"12ft"', '9ft, pro8ft, csi8ft, 8ft, 7ft']],
    [`${side} --format xml`, ['"xml"', 'json, csv, md']],
    ['--list --format xml', ['"xml"', 'json, csv, md']],
    [`${side} --pockets huge`, ['"huge"', 'tight, standard, generous']],
    [`${side} --naming both`, ['"both"', 'through, opposite']],
    [`${side} --step 0.2`, ['"0.2"', '0.1, 0.05']],
    [`${side} --tolerance 0.01`, ['"0.01"', '0.05 to 1']],
    [`${side} --tolerance 0.05`, ['--tolerance', '0.1 or 0.05']],
    [`${side} --starts 1:8`, ['"1:8"', 'FROM:TO:STEP', '0 to 8']],
    [`${side} --starts 1:8:0`, ['"1:8:0"', '0.05 apart']],
    [`${side} --starts 1:8:0.04`, ['0.05 apart']],
    [`${side} --starts 8:1:1`, ['ascending']],
    [`${side} --starts 3,2`, ['ascending']],
    [`${side} --starts 1:99999999:0.1`, ['0 to 8']],
    [`${side} --starts 1:8:0.5:2`, ['FROM:TO:STEP']],
    [`${side} --starts=-1:2:1`, ['0 to 8']],
    [`${side} --starts 1,,2`, ['FROM:TO:STEP']],
    ['--pattern up-and-back --starts 1:6:1', ['head rail', '0 to 4']],
    ['--pattern up-and-back --target 4.5', ['head rail', '0 to 4']],
    [`${side} --target -1`, ['"-1"', '0 to 8']],
    [`${side} --target NaN`, ['"NaN"', '0 to 8']],
    [`${side} --target 1.23456`, ['three decimals']],
    [`${side} --speeds 3`, ['"3"', 'soft, medium and firm', 'ascending']],
    [`${side} --speeds 2,3,4,5`, ['three speeds']],
    [`${side} --speeds firm,medium,soft`, ['in their places']],
    [`${side} --speeds 4,3,2`, ['--speeds', 'soft over medium to firm']],
    [`${side} --speeds 2,3,99`, ['speeds.firm', '0.5 to 10']],
    [`${side} --follow 0.6`, ['"0.6"', '-0.5 to 0.5']],
    [`${side} --side much`, ['"much"', '-0.5 to 0.5']],
    [`${side} --running 1`, ['"1"', '-0.5 to 0.5']],
    [`${side} --along -1`, ['"-1"', '0 to 0.95']],
    [`${side} --side 0.1 --running 0.1`, ['--side', '--running']],
    [`${side} --side 0.4 --follow 0.4`, ['--follow', '0.5']],
    ['--pattern three-cushion --follow 0.4', ['--follow', '0.5']],
    [`${side} --condition`, ['""']],
    [`${side} --condition none.json`, ['"none.json"']],
    [`${side} --condition broken.json`, ['"broken.json"', fields]],
    [`${side} --condition stray.json`, ['"stray.json"', 'restitutoin', fields]],
    [`${side} --condition list.json`, ['"list.json"', fields]],
    [`${side} --condition wild.json`, ['"wild.json"', 'restitution', '0.5 to 1']],
    [`${side} --condition paces.json`, ['"paces.json"', 'soft over medium to firm']],
  ])('%s', (line, parts) => {
    const parsed = parse(line);
    if (parsed.ok) throw new Error(`${line} is accepted`);
    for (const part of parts) expect(parsed.say).toContain(part);
    expect(parsed.say).toMatch(/^[^\n]+\.$/);
    expect(parsed.say).not.toMatch(/[.!?] [A-Z]/);
  });

  it('is one short line, whatever the command line holds', () => {
    const long = parse(`--pattern ${'x'.repeat(5000)}\u001b[31m`);
    if (long.ok) throw new Error('an endless id is accepted');
    expect(long.say.length).toBeLessThan(500);
    expect(long.say).not.toContain('\u001b');
  });
});

function parse(...lines: readonly string[]): Read<Command> {
  const argv = lines
    .join(' ')
    .split(' ')
    .filter((part) => part !== '');
  return parseOptions(argv, (path) => {
    const text = FILES[path];
    return text === undefined ? refuse(`There is no ${JSON.stringify(path)}.`) : read(text);
  });
}

function accepted(...parts: readonly string[]): Command {
  const parsed = parse(...parts);
  if (!parsed.ok) throw new Error(parsed.say);
  return parsed.value;
}

function request(pattern: string, rest = '') {
  const command = accepted('--pattern', pattern, rest);
  if (command.what !== 'sheet') throw new Error('the command should print a sheet');
  return command.request;
}
