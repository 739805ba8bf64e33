import { useState } from 'preact/hooks';
import { formatDecimal, type PatternId, patternOf, toNumber } from '../../charts/index.ts';
import { HoldFigure, holdPercent, PlotTable } from '../../figure/index.ts';
import { aimNamed, MIRRORS, type Mirror } from '../../table/index.ts';
import { Choice } from '../parts/controls.tsx';
import type { MemoryData } from './data.ts';
import { type HeldLine, weakestOf } from './lines.ts';
import { WeakList } from './weak.tsx';

/** How many weak lines of a pattern are listed. */
const NAMED = 3;

/** Shows how well each line of a pattern is held, drawn on the table. */
export function PatternHolds(props: {
  readonly data: MemoryData;
  readonly lines: readonly HeldLine[];
}) {
  const { data, lines } = props;
  const { patterns } = data.chart;
  const of = (id: PatternId) => lines.filter(({ card }) => card.pattern === id);
  const inUse = patterns.filter((id) => of(id).length > 0);
  const [chosen, choose] = useState<PatternId | null>(null);
  const pattern = chosen && inUse.includes(chosen) ? chosen : mostAsked(inUse, of);
  if (!pattern) return null;
  const own = [...of(pattern)].sort((a, b) => a.card.start - b.card.start);
  const weak = weakestOf(own, data.log, NAMED);
  return (
    <section class="sheet" aria-labelledby="pattern-title">
      <h2 id="pattern-title">On the table</h2>
      <Choice
        label="Pattern"
        value={pattern}
        options={inUse.map((id) => [id, patternOf(id).name])}
        onChoose={choose}
      />
      <p>{holdWords(own)}</p>
      <HoldPicture data={data} pattern={pattern} lines={own} />
      {weak.length > 0 && (
        <>
          <h3>Its weakest lines</h3>
          <WeakList lines={weak} />
        </>
      )}
      <PlotTable
        summary="These holds in numbers"
        heads={['From', 'Hold, %']}
        rows={own.map(({ card, hold }) => [
          formatDecimal(card.start),
          hold === null ? 'not asked yet' : holdPercent(hold),
        ])}
      />
    </section>
  );
}

function HoldPicture(props: {
  readonly data: MemoryData;
  readonly pattern: PatternId;
  readonly lines: readonly HeldLine[];
}) {
  const { data, pattern, lines } = props;
  const { setting, naming } = data.chart;
  const route = patternOf(pattern);
  const places = lines.map(({ card, hold }) => {
    const diamond = toNumber(card.start);
    const { exact } = card.line.numbers.medium;
    return { diamond, hold, aim: aimNamed(setting.table, route, diamond, exact, naming) };
  });
  return (
    <div class="hold-picture">
      <HoldFigure
        frame={{ table: setting.table, mirror: MIRRORS[0] as Mirror }}
        label={`${route.name} on the table. ${holdWords(lines)}`}
        start={route.start}
        aim={route.aim}
        target={route.target}
        places={places}
      />
      <p class="soft-words">
        Percent held at each start. A full ring and a strong line are held well, a dot is half or
        less; an empty ring was not asked yet.
      </p>
    </div>
  );
}

/**
 * Returns the pattern in which the most lines were asked. If several are equal, returns the first.
 */
function mostAsked(
  patterns: readonly PatternId[],
  of: (id: PatternId) => readonly HeldLine[],
): PatternId | null {
  const asked = (id: PatternId) => of(id).filter(({ hold }) => hold !== null).length;
  return patterns.reduce<PatternId | null>(
    (best, id) => (best === null || asked(id) > asked(best) ? id : best),
    null,
  );
}

function holdWords(lines: readonly HeldLine[]): string {
  const held = lines.reduce((sum, { hold }) => sum + (hold ?? 0), 0);
  const unasked = lines.filter(({ hold }) => hold === null).length;
  const rest = unasked === 0 ? '' : ` ${unasked} not asked yet.`;
  return `You know ${Math.round(held)} of its ${lines.length} lines.${rest}`;
}
