/** As much of PDF (ISO 32000-1) as tells what a browser has printed. */

import { inflateSync } from 'node:zlib';

export interface Pdf {
  /** Width and height of each page, points of 1/72 in (7.7.3.3, MediaBox). */
  readonly pages: readonly (readonly [number, number])[];
  /** Pictures made of pixels (8.9.5, image XObjects), and those within a page's content (8.9.7). */
  readonly images: number;
  /** All that is written, as it would be copied, without its spaces. */
  readonly text: string;
}

interface Part {
  readonly dictionary: string;
  readonly stream: string;
}

export function readPdf(file: Buffer): Pdf {
  const parts = partsOf(file.toString('latin1'));
  const all = [...parts.values()];
  const pages = all
    .filter(({ dictionary }) => /\/Type\s*\/Page\b/.test(dictionary))
    .map(({ dictionary }) => sizeOf(dictionary));
  const letters = lettersOf(parts);
  const images = all.filter(({ dictionary }) => /\/Subtype\s*\/Image\b/.test(dictionary));
  const inline = all.filter(({ stream }) => /\bBI\b[\s\S]*?\bID\b/.test(stream));
  return {
    pages,
    images: images.length + inline.length,
    text: all.map(({ stream }) => textOf(stream, letters)).join(''),
  };
}

/** Indirect objects (7.3.10) with their streams, inflated where they are deflated (7.4.4). */
function partsOf(file: string): ReadonlyMap<string, Part> {
  const parts = new Map<string, Part>();
  for (const [, name = '', body = ''] of file.matchAll(/(\d+) 0 obj\b([\s\S]*?)\bendobj/g)) {
    const [dictionary = '', rest = ''] = body.split(/stream\r?\n/, 2);
    const length = Number(/\/Length (\d+)/.exec(dictionary)?.[1] ?? 0);
    const bytes = Buffer.from(rest.slice(0, length), 'latin1');
    const deflated = dictionary.includes('/FlateDecode') && length > 0;
    const isFont = /\/Length1\b/.test(dictionary);
    const stream = deflated && !isFont ? inflateSync(bytes).toString('latin1') : '';
    parts.set(name, { dictionary, stream });
  }
  return parts;
}

function sizeOf(page: string): readonly [number, number] {
  const [, box = ''] = /\/MediaBox\s*\[([^\]]*)\]/.exec(page) ?? [];
  const [left = 0, low = 0, right = 0, high = 0] = box.trim().split(/\s+/).map(Number);
  return [right - left, high - low];
}

type Letters = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** What each font's codes stand for (9.10.3, ToUnicode), by the font's name in the pages. */
function lettersOf(parts: ReadonlyMap<string, Part>): Letters {
  const letters = new Map<string, ReadonlyMap<string, string>>();
  for (const { dictionary } of parts.values()) {
    for (const [, name = '', font = ''] of dictionary.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const [, map = ''] = /\/ToUnicode (\d+)/.exec(parts.get(font)?.dictionary ?? '') ?? [];
      letters.set(name, codesOf(parts.get(map)?.stream ?? ''));
    }
  }
  return letters;
}

function codesOf(map: string): ReadonlyMap<string, string> {
  const codes = new Map<string, string>();
  for (const [, body = ''] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, code = '', to = ''] of body.matchAll(/<(\w+)>\s*<(\w+)>/g)) {
      codes.set(code, letterOf(to));
    }
  }
  for (const [, body = ''] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from = '', to = '', first = ''] of body.matchAll(
      /<(\w+)>\s*<(\w+)>\s*<(\w+)>/g,
    )) {
      const start = Number.parseInt(from, 16);
      for (let code = start; code <= Number.parseInt(to, 16); code++) {
        const letter = (Number.parseInt(first, 16) + code - start).toString(16);
        codes.set(code.toString(16).toUpperCase().padStart(from.length, '0'), letterOf(letter));
      }
    }
  }
  return codes;
}

function letterOf(hex: string): string {
  const units = hex.padStart(Math.ceil(hex.length / 4) * 4, '0').match(/.{4}/g) ?? [];
  return String.fromCharCode(...units.map((unit) => Number.parseInt(unit, 16)));
}

/** Shown codes (9.4.3) in the letters of the font that is set (9.3). */
function textOf(stream: string, letters: Letters): string {
  let text = '';
  let font: ReadonlyMap<string, string> = new Map();
  for (const [, name, shown] of stream.matchAll(/\/(F\d+) [\d.]+ Tf|<(\w+)> Tj/g)) {
    if (name !== undefined) font = letters.get(name) ?? new Map();
    else text += decoded(shown ?? '', font);
  }
  return text.replace(/\s/g, '');
}

function decoded(shown: string, font: ReadonlyMap<string, string>): string {
  const [first = ''] = font.keys();
  const width = first.length || 2;
  const codes = shown.match(new RegExp(`.{${width}}`, 'g')) ?? [];
  return codes.map((code) => font.get(code.toUpperCase()) ?? '').join('');
}
