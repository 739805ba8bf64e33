import jsQr from 'jsqr';
import { describe, expect, it } from 'vitest';
import { formatChartCode } from '../../../src/app/device/chart-link.ts';
import { type QrCode, qrOf } from '../../../src/app/device/qr.ts';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  lastRevision,
  printedRows,
  revise,
  withCsv,
} from '../../../src/charts/index.ts';
import { MEASURED_BAR_TABLE } from '../../charts/measured.ts';

const SITE = 'https://charts.example/throughline/#/receive/';

/** The league table's chart with every line measured at three speeds. */
function allMeasured(): ChartDocument {
  const last = lastRevision(HARBOUR_LANE);
  const state = withCsv(last, printedRows(computeChart(HARBOUR_LANE)));
  if (!state) throw new Error('too many lines');
  return revise({ ...HARBOUR_LANE, basis: 'measured' }, state, last);
}

/** Decoded by an independent reader of QR codes, from pixels: four per side of a module. */
function decoded(code: QrCode): string | undefined {
  const side = code.size * 4;
  const pixels = new Uint8ClampedArray(side * side * 4);
  for (let n = 0; n < side * side; n++) {
    const dark = code.isDark(Math.floor((n % side) / 4), Math.floor(n / side / 4));
    pixels.set(dark ? [0, 0, 0, 255] : [255, 255, 255, 255], n * 4);
  }
  return jsQr(pixels, side, side)?.data;
}

/** The modules covered by a path of rectangles that are one module high. */
function covered(path: string): Set<string> {
  const cells = new Set<string>();
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let n = 0; n < Number(width); n++) cells.add(`${Number(x) + n} ${y}`);
  }
  return cells;
}

describe('a QR code', () => {
  it.each([
    ['the league table', HARBOUR_LANE],
    ['the bar table', HARBOUR_LANE_BAR],
    ['a measured chart', MEASURED_BAR_TABLE],
    ['a chart of 87 lines, all measured', allMeasured()],
  ])('of the link to %s is read back as that link', async (_name, document) => {
    const link = SITE + (await formatChartCode(document));
    const code = qrOf(link);
    if (!code) throw new Error('no code');
    expect(decoded(code)).toBe(link);
  });

  it('is drawn with four white modules around it', () => {
    const code = qrOf(SITE);
    if (!code) throw new Error('no code');
    const cells = covered(code.path);
    for (let y = 0; y < code.size; y++) {
      for (let x = 0; x < code.size; x++) {
        expect(cells.has(`${x} ${y}`)).toBe(code.isDark(x, y));
        const edge = Math.min(x, y, code.size - 1 - x, code.size - 1 - y);
        if (edge < 4) expect(code.isDark(x, y)).toBe(false);
      }
    }
  });

  // ISO/IEC 18004, capacity of version 25 at level L: 1273 bytes.
  it('is refused if its modules would be too small to read', () => {
    expect(qrOf('x'.repeat(1273))?.size).toBe(4 * 25 + 17 + 8);
    expect(qrOf('x'.repeat(1274))).toBeNull();
  });
});
