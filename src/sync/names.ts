/** The names of files in the folder. A name tells only which device wrote the file, and its number. */

export const HEADER_NAME = 'throughline-sync.json';

/** The writer's random name (ten characters) and the file's number (eight digits). */
const SEGMENT = /^([a-z0-9]{10})-(\d{8})\.tls$/;

export function segmentName(writer: string, number: number): string {
  return `${writer}-${String(number).padStart(8, '0')}.tls`;
}

export function isSegmentName(name: string): boolean {
  return SEGMENT.test(name);
}

export function isBy(writer: string, name: string): boolean {
  return SEGMENT.exec(name)?.[1] === writer;
}

/**
 * Returns a random name. There are 36¹⁰ (about 3.7e15) such names, so that no two devices write the
 * same file.
 */
export function newWriter(): string {
  const letters: string[] = [];
  while (letters.length < 10) {
    const [byte = 0] = crypto.getRandomValues(new Uint8Array(1));
    // 252 is 7 times 36. The four values from 252 to 255 would make some characters more likely.
    if (byte < 252) letters.push((byte % 36).toString(36));
  }
  return letters.join('');
}
