/** A short run of the fuzzer; `npm run fuzz` is the long one. */

import { describe, expect, it } from 'vitest';
import { fuzz } from './fuzz.ts';
import { law, type Target } from './target.ts';
import { TARGETS } from './targets.ts';

const SEED = 5;
/** Inputs for each parser; an input of the two that write to a store takes a hundred times as long. */
const COUNT = 200;
const FEW = 40;

describe('outside input', () => {
  it.each(TARGETS.map((target) => [target.name, target] as const))(
    '%s is either accepted or refused',
    async (_, target) => {
      const report = await fuzz(target, target.share < 1 ? FEW : COUNT, SEED);
      expect(report.findings).toEqual([]);
      // Both must occur, or only the parser's first lines are fuzzed.
      expect(report.taken).toBeGreaterThan(0);
      if (target.name !== 'records on the disk') expect(report.refused).toBeGreaterThan(0);
    },
  );
});

describe('the fuzzer', () => {
  const fragile = (take: Target['take']): Target => ({
    ...{ name: 'fragile', form: 'json', share: 1, seeds: ['{"size":3,"list":[1,2]}'], take },
  });

  it('finds a parser that throws on a wrong type', async () => {
    const target = fragile((text) => {
      if (!String(text).startsWith('{"size":')) return 'refused';
      const { list } = JSON.parse(String(text).replace(/[^{}[\]":,\w]/g, '')) as { list: number[] };
      return list.length > 0 ? 'taken' : 'refused';
    });
    const { findings } = await fuzz(target, 300, SEED);
    expect(findings.map(({ error }) => (error as Error).name)).toContain('TypeError');
  });

  it('finds a parser that lets a key reach Object.prototype', async () => {
    const target = fragile((text) => {
      const own: Record<string, Record<string, unknown>> = {};
      for (const [, key = '', inner = ''] of String(text).matchAll(/"(\w+)":\{"(\w+)":1/g)) {
        own[key] = own[key] || {};
        (own[key] as Record<string, unknown>)[inner] = 1;
      }
      return 'taken';
    });
    try {
      await expect(fuzz(target, 2000, SEED)).rejects.toThrow('Object.prototype was changed');
    } finally {
      Reflect.deleteProperty(Object.prototype, 'polluted');
      Reflect.deleteProperty(Object.prototype, 'a');
    }
  });

  it('finds a parser that breaks a law', async () => {
    const target = fragile((text) => {
      law(!String(text).includes('\u202e'), 'turns its direction');
      return 'taken';
    });
    const { findings } = await fuzz(target, 2000, SEED);
    expect(findings).toHaveLength(1);
  });

  it('makes the same inputs from the same seed', async () => {
    const inputs: unknown[][] = [[], []];
    for (const list of inputs) {
      const keeping = fragile((text) => {
        list.push(text);
        return 'taken';
      });
      await fuzz(keeping, 300, SEED);
    }
    expect(inputs[0]).toEqual(inputs[1]);
    expect(new Set(inputs[0]).size).toBeGreaterThan(200);
  });
});
