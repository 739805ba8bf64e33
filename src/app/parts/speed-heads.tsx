import { SPEEDS } from '../../table/index.ts';

/** The heads of a table's columns, one a speed. */
export function SpeedHeads() {
  return SPEEDS.map((speed) => (
    <th key={speed} scope="col">
      {speed}
    </th>
  ));
}
