import { SPEEDS } from '../../table/index.ts';

/** The column heads of a table, one for each speed. */
export function SpeedHeads() {
  return SPEEDS.map((speed) => (
    <th key={speed} scope="col">
      {speed}
    </th>
  ));
}
