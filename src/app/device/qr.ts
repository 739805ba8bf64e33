/** A text as a QR code (ISO/IEC 18004), drawn as a path. */

import { correction, generate } from 'lean-qr';

/** Larger codes have modules too small for a phone to read from another's screen. */
const LARGEST_VERSION = 25;
/** White modules around a code, as the standard asks. */
const QUIET = 4;

export interface QrCode {
  /** Modules on a side, the white ones around it included. */
  readonly size: number;
  /** Modules on a side of the code alone. */
  readonly modules: number;
  readonly isDark: (x: number, y: number) => boolean;
  /** The dark modules, as an SVG path in modules. */
  readonly path: string;
}

/** Null if the text is more than a code of a practical size holds. */
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
    // It says no more than that the text is too much.
    return null;
  }
}

/** One rectangle for each run of dark modules in a row. */
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
