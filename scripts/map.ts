/** The map of the house, docs/map.svg: drawn by `npm run map`, kept true by tests/map.test.ts. */

import { drawMap } from './map/drawing.ts';
import { readRooms } from './map/rooms.ts';

export { CAPTIONS } from './map/measure.ts';
export { readRooms } from './map/rooms.ts';

/** @param src the folder of the rooms */
export function mapOf(src: string): string {
  return drawMap(readRooms(src));
}
