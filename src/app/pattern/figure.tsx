import { useMemo } from 'preact/hooks';
import { replay } from '../../cards/index.ts';
import { formatDecimal, patternOf, type SheetLine, toNumber } from '../../charts/index.ts';
import {
  type FigureAim,
  type FigureMark,
  type FigurePath,
  TableFigure,
} from '../../figure/index.ts';
import { followsAim, SpeedLegend } from '../../quiz/index.ts';
import { aimNamed, MIRRORS, type Mirror, SPEEDS } from '../../table/index.ts';
import type { SolvedSheet } from '../state/workbench.ts';

interface Parts {
  readonly paths: readonly FigurePath[];
  readonly aims: readonly FigureAim[];
  readonly marks: readonly FigureMark[];
}

/**
 * Draws the chosen line at three speeds, on the same table and with the same stroke as its numbers.
 */
export function PatternFigure({
  worked,
  line,
}: {
  readonly worked: SolvedSheet;
  readonly line: SheetLine;
}) {
  const { table } = worked.request.setting;
  const { start, aim } = patternOf(worked.pattern);
  const parts = useMemo(() => partsOf(worked, line), [worked, line]);
  return (
    <div class="pattern-figure">
      <TableFigure
        frame={{ table, mirror: MIRRORS[0] as Mirror }}
        label={`The line from ${formatDecimal(line.start)} at soft, medium and firm speed`}
        counts={[start, aim]}
        target={worked.request.route.target}
        {...parts}
      />
      <SpeedLegend />
    </div>
  );
}

function partsOf({ pattern, request }: SolvedSheet, line: SheetLine): Parts {
  const { setting, route, naming, stroke } = request;
  const start = toNumber(line.start);
  const { start: startCount, aim: count } = patternOf(pattern);
  const drawn = SPEEDS.flatMap((tone) => {
    const number = line.numbers[tone];
    if (typeof number === 'string') return [];
    const aim = aimNamed(setting.table, route, start, number.exact, naming);
    const launch = { ...stroke, speed: setting.condition.speeds[tone] };
    const { model } = number;
    const played = model === null ? aim : aimNamed(setting.table, route, start, model, naming);
    const { stretches } = replay(setting, route, start, played, launch);
    const label = formatDecimal(number.printed);
    return [{ tone, stretches, aim, shift: aim - played, named: number.exact, label }];
  });
  const medium = drawn.filter(({ tone }) => tone === 'medium');
  const from = { count: startCount, diamond: start };
  return {
    paths: drawn,
    aims: medium
      .filter(({ shift }) => followsAim(shift))
      .map(({ tone, aim }) => ({ tone, from, through: { count, diamond: aim } })),
    marks: [
      { tone: 'start', ...from, label: formatDecimal(line.start) },
      ...medium.map(({ tone, named, label }) => ({ tone, count, diamond: named, label })),
    ],
  };
}
