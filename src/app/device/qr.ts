/** QR codes (ISO/IEC 18004). */

import { correction, generate } from 'lean-qr';

/** In larger codes the modules are too small for a phone to read off another's screen. */
const LARGEST_VERSION = 25;
/** White modules around a code, required by the standard. */
const QUIET = 4;

export interface QrCode {
  /** Modules per side, with the white ones around the code. */
  readonly size: number;
  /** Modules per side of the code alone. */
  readonly modules: number;
  readonly isDark: (x: number, y: number) => boolean;
  /** An SVG path of the dark modules; its unit is a module. */
  readonly path: string;
}

/** Null if the text is too long for a code of a practical size. */
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

/** A rectangle for each run of dark modules in a row. */
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
