/** The whole catalogue as pattern pages show it: numbers, make windows, drift, verdicts, anchors. */

import { anchorBound, computeSheet, type SheetRequest, toDecimal } from '../src/charts/index.ts';
import { club, patterns, startsOf } from './catalogue.ts';
import { compare } from './measure.ts';

export function benchSheets(): { readonly lines: number; readonly ms: number } {
  const requests: readonly SheetRequest[] = patterns.map((route) => ({
    setting: club,
    route,
    starts: startsOf(route, 0.5).map(toDecimal),
    printStep: toDecimal(0.1),
    naming: 'through',
    stroke: route.stroke ?? {},
    anchorBound: anchorBound(toDecimal(0.1)),
  }));
  const lines = requests.reduce((sum, { starts }) => sum + starts.length, 0);
  const [rate] = compare([
    {
      name: 'catalogue',
      run: () => {
        for (const request of requests) computeSheet(request);
        return 1;
      },
    },
  ]);
  return { lines, ms: 1000 / (rate?.perSecond ?? Number.NaN) };
}
