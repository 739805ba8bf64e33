import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PATTERNS } from '../../src/charts/index.ts';
import { parseCsv } from './csv.ts';
import { parseTable } from './markdown.ts';

const folder = mkdtempSync(join(tmpdir(), 'throughline-chart-'));
const vite = join('node_modules', 'vite', 'bin', 'vite.js');

/** The command as it ships, bundled once into a folder of its own. */
beforeAll(() => {
  const config = ['--config', 'bin/vite.config.ts', '--logLevel', 'error', '--outDir', folder];
  const built = spawnSync(process.execPath, [vite, 'build', ...config], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(built.stderr);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true }));

describe('the built command', () => {
  it('prints JSON and nothing else', () => {
    const { status, stdout, stderr } = chart('--pattern', 'foot-to-side', '--table', '9ft');
    expect([status, stderr]).toEqual([0, '']);
    const lines = JSON.parse(stdout) as Record<string, unknown>[];
    expect(lines.map(({ start }) => start)).toEqual(
      Array.from({ length: 15 }, (_, n) => 1 + n / 2),
    );
    for (const key of ['soft', 'medium', 'firm', 'makeWindow', 'entryAngleDeg', 'verdict']) {
      for (const line of lines) expect(line).toHaveProperty(key);
    }
    for (const { anchor } of lines) expect(typeof anchor).toBe('boolean');
  });

  it('prints CSV and Markdown with a row for every start', () => {
    const csv = chart('--pattern', 'cross-side', '--format', 'csv', '--starts', '5:8:1');
    expect(csv.status).toBe(0);
    expect(parseCsv(csv.stdout).map(([start]) => start)).toEqual(['start', '5', '6', '7', '8']);
    const md = chart('--pattern', 'cross-side', '--format', 'md', '--starts', '5:8:1');
    expect(md.status).toBe(0);
    expect(parseTable(md.stdout).map(([start]) => start)).toEqual([
      ...['start', '5.0', '6.0', '7.0', '8.0'],
    ]);
  });

  it('lists the patterns and prints its options', () => {
    const items = JSON.parse(chart('--list').stdout) as { option: string; value: string }[];
    const patterns = items.filter(({ option }) => option === 'pattern');
    expect(patterns.map(({ value }) => value)).toEqual(PATTERNS.map(({ id }) => id));
    const help = chart('--help');
    expect([help.status, help.stderr]).toEqual([0, '']);
    expect(help.stdout).toContain('--pattern ID');
  });

  it('refuses an unknown pattern with status 2 and names the known ones', () => {
    const { status, stdout, stderr } = chart('--pattern', 'over-the-top');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^[^\n]+\.\n$/);
    for (const { id } of PATTERNS) expect(stderr).toContain(id);
  });

  it('plays on the condition in a file, and refuses a file it cannot read or use', () => {
    const call = ['--pattern', 'cross-side', '--starts', '6', '--condition'];
    const medium = (path: string) =>
      (JSON.parse(chart(...call, path).stdout) as { medium: number }[])[0]?.medium;
    // Alciatore, bank and kick effects: slick cushion cloth (lower friction at the nose) banks longer,
    // so across the table, where the ball returns towards the foot, the number is larger.
    const slick = medium(file('slick.json', '{ "noseFriction": 0.05 }'));
    expect(slick).toBeGreaterThan(medium(file('empty.json', '{}')) ?? Number.NaN);
    for (const [path, part] of [
      [join(folder, 'none.json'), 'ENOENT'],
      [folder, 'EISDIR'],
      [file('broken.json', '{'), 'restitution'],
      [file('wild.json', '{ "rollFriction": 1 }'), '0.001 to 0.05'],
    ] as const) {
      const { status, stdout, stderr } = chart(...call, path);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^[^\n]+\.\n$/);
      expect(stderr).toContain(part);
    }
  });

  it('ends quietly when its reader has closed the pipe', async () => {
    const child = spawn(process.execPath, [join(folder, 'chart.mjs'), '--list']);
    // Closed before the command starts, so every byte it writes meets a broken pipe.
    child.stdout.destroy();
    let errors = '';
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      errors += text;
    });
    const status = await new Promise((resolve) => child.on('close', resolve));
    expect([status, errors]).toEqual([0, '']);
  });

  it('runs by its npm script from any folder', () => {
    writeFileSync(join(folder, 'here.json'), '{ "restitution": 0.7 }');
    const args = ['--prefix', process.cwd(), 'run', '-s', 'chart', '--', '--pattern', 'cross-side'];
    const options = { encoding: 'utf8', cwd: folder } as const;
    const { status, stdout } = spawnSync('npm', [...args, '--condition', 'here.json'], options);
    expect(status).toBe(0);
    expect(stdout).toBe(chart('--pattern=cross-side', `--condition=${folder}/here.json`).stdout);
    expect(spawnSync('npm', [...args, '--condition', 'gone.json'], options).status).toBe(2);
  });
});

function chart(...args: readonly string[]) {
  return spawnSync(process.execPath, [join(folder, 'chart.mjs'), ...args], { encoding: 'utf8' });
}

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}
