/** The sample rate, per second: the lowest rate that every browser plays. */
const RATE = 8000;
const HEADER = 44;

/**
 * Returns a silent WAV file with one channel. Its samples are unsigned 8-bit numbers, all at their
 * middle value, 128. For the layout, see "Multimedia Programming Interface and Data Specifications
 * 1.0" (IBM and Microsoft, 1991), chapter 3, WAVE.
 */
export function silentWav(seconds: number): Uint8Array<ArrayBuffer> {
  const samples = Math.round(seconds * RATE);
  const bytes = new Uint8Array(HEADER + samples).fill(128, HEADER);
  const view = new DataView(bytes.buffer);
  const text = (at: number, letters: string) => bytes.set(new TextEncoder().encode(letters), at);
  text(0, 'RIFF');
  view.setUint32(4, HEADER - 8 + samples, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE, true);
  view.setUint32(28, RATE, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  text(36, 'data');
  view.setUint32(40, samples, true);
  return bytes;
}
