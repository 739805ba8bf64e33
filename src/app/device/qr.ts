/** Makes QR codes (ISO/IEC 18004). */

import { correction, generate } from 'lean-qr';

/**
 * The largest version of a code. In larger codes, the modules are too small for a phone to read from
 * the screen of another phone.
 */
const LARGEST_VERSION = 25;
/** The width of the white border around a code, in modules, which the standard requires. */
const QUIET = 4;

export interface QrCode {
  /** The number of modules per side, including the white border. */
  readonly size: number;
  /** The number of modules per side, without the white border. */
  readonly modules: number;
  readonly isDark: (x: number, y: number) => boolean;
  /** The dark modules as an SVG path. Its unit is one module. */
  readonly path: string;
}

/** Returns the QR code of a text; null if the text is too long for a code of a practical size. */
export function qrOf(text: string): QrCode | null {
  const code = generated(text);
  if (!code) return null;
  const isDark = (x: number, y: number) => code.get(x - QUIET, y - QUIET);
  const size = code.size + 2 * QUIET;
  return { size, modules: code.size, isDark, path: pathOf(size, isDark) };
}

function generated(text: string) {
  try {
    return generate(text, { minCorrectionLevel: correction.L, maxVersion: LARGEST_VERSION });
  } catch {
    // The library throws if the text does not fit.
    return null;
  }
}

/** Returns a path with a rectangle for each group of adjacent dark modules in a row. */
function pathOf(size: number, isDark: QrCode['isDark']): string {
  const runs: string[] = [];
  for (let y = 0; y < size; y++) {
    let from: number | null = null;
    for (let x = 0; x < size; x++) {
      if (isDark(x, y)) from ??= x;
      else if (from !== null) {
        runs.push(`M${from} ${y}h${x - from}v1h${from - x}z`);
        from = null;
      }
    }
  }
  return runs.join('');
}
