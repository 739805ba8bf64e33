/** The map of the rooms, docs/map.svg: `npm run map` draws it, and tests/map.test.ts keeps it current. */

import { drawMap } from './map/drawing.ts';
import { readRooms } from './map/rooms.ts';

export { CAPTIONS } from './map/measure.ts';
export { readRooms } from './map/rooms.ts';

/** @param src the folder of the rooms */
export function mapOf(src: string): string {
  return drawMap(readRooms(src));
}
