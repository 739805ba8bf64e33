import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatChartCode, readChartCode } from '../../../src/app/device/chart-link.ts';
import { toBase64Url } from '../../../src/bytes/index.ts';
import { fnv1a, formatCompact, HARBOUR_LANE, slim } from '../../../src/charts/index.ts';
import { anyDocument } from '../../charts/documents.ts';
import { MEASURED_BAR_TABLE } from '../../charts/measured.ts';

const DAMAGED =
  'The link is damaged: a part of it is missing or was changed. Ask for it again, or for the file.';
const LARGE = 'The link holds more than any chart does.';

async function codeOf(document = HARBOUR_LANE): Promise<string> {
  const code = await formatChartCode(document);
  if (code === null) throw new Error('no code');
  return code;
}

async function refusal(code: string): Promise<string> {
  const read = await readChartCode(code);
  return read.ok ? '' : read.say;
}

/** A code with a correct check for any bytes, as an attacker would make it. */
function codeAround(bytes: Uint8Array): string {
  const check = fnv1a(bytes).toString(32).padStart(5, '0').slice(-5);
  return `1${check}${toBase64Url(deflateRawSync(bytes, { level: 9 }))}`;
}

describe('a chart link', () => {
  it('reads back as the document with its last revision', async () => {
    await fc.assert(
      fc.asyncProperty(anyDocument, async (document) => {
        const code = await codeOf(document);
        expect(code).toMatch(/^1[\w-]+$/);
        expect(await readChartCode(code)).toEqual({ ok: true, document: slim(document) });
      }),
      { numRuns: 150 },
    );
  });

  // A deflater that is not the browser's: Node's zlib (RFC 1951).
  it('can be read whatever program deflated it, and whatever text is around it', async () => {
    const code = codeAround(new TextEncoder().encode(formatCompact(slim(MEASURED_BAR_TABLE))));
    const document = slim(MEASURED_BAR_TABLE);
    for (const link of [
      code,
      ` ${code}\n`,
      `https://charts.example/app/#/receive/${code}`,
      `See https://charts.example/#/receive/${code}).`,
      `https://charts.example/#/receive/${code}?from=a friend`,
    ]) {
      expect(await readChartCode(link)).toEqual({ ok: true, document });
    }
  });

  it('is refused if it is cut anywhere', async () => {
    const code = await codeOf(MEASURED_BAR_TABLE);
    for (let length = 0; length < code.length; length++) {
      expect(await refusal(code.slice(0, length))).toBe(DAMAGED);
    }
  });

  it('is refused if one letter is changed', async () => {
    const code = await codeOf(MEASURED_BAR_TABLE);
    for (let at = 1; at < code.length; at++) {
      const other = code[at] === 'A' ? 'B' : 'A';
      expect((await readChartCode(code.slice(0, at) + other + code.slice(at + 1))).ok).toBe(false);
    }
  });

  it.each([
    ['nothing', '', DAMAGED],
    ['words', 'no link at all', DAMAGED],
    ['a drill', 'https://charts.example/#/drills/1-abc-7-11110-rs-000000', DAMAGED],
    [
      'a later version',
      '2AAAA',
      'The link was made by a newer Throughline. Load this page again to get it.',
    ],
    ['what is too long', `1${'A'.repeat(10_000_000)}`, LARGE],
  ])('made of %s is refused in a sentence', async (_name, code, says) => {
    expect(await refusal(code)).toBe(says);
  });

  it('is refused before it is inflated to far more than its size', async () => {
    // Fifty million zeros deflate to 48 kB; four hundred million make more than a code may have.
    const bomb = codeAround(new Uint8Array(50_000_000));
    expect(bomb.length).toBeLessThan(80_000);
    expect(await refusal(bomb)).toBe(LARGE);
  });

  it.each([
    ['no JSON', 'aim', 'The link is damaged.'],
    ['nothing of a chart', '{"__proto__":{"polluted":1}}', 'The link is damaged.'],
    ['deep lists', `${'['.repeat(100_000)}${']'.repeat(100_000)}`, 'The link is damaged.'],
    ['bytes that are no text', '\ud800', 'The link is damaged.'],
    [
      'a number beyond the rail',
      formatCompact(slim(MEASURED_BAR_TABLE)).replace(',500,[["a"', ',50000,[["a"'),
      'The link is damaged at revisions.0.measured.0.',
    ],
  ])('that holds %s is refused', async (_name, text, says) => {
    expect(await refusal(codeAround(new TextEncoder().encode(text)))).toContain(says);
    expect('polluted' in {}).toBe(false);
  });
});
