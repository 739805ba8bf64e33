import {
  type Chart,
  formatDecimal,
  type PatternId,
  patternOf,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { lineAtSpeeds } from '../../quiz/index.ts';
import type { NextShot } from '../../shots/index.ts';
import { SPEEDS } from '../../table/index.ts';
import { Choice, OneOf } from '../parts/controls.tsx';
import { PRINTED } from '../parts/shot.ts';
import {
  atSpeed,
  besideWords,
  choose as chosen,
  type LineChoice,
  lineAt,
  namedAim,
  nudged,
} from './choice.ts';
import { nextWords, startWords } from './words.ts';

interface LineToShootProps {
  readonly chart: Chart;
  readonly choice: LineChoice;
  /** Why the line is suggested; null if the player chose it. */
  readonly why: NextShot | null;
  readonly waits: boolean;
  /** Changes the number or the speed for one shot. */
  readonly choose: (choice: LineChoice) => void;
  /** Picks a different line, which stays chosen. */
  readonly pick: (choice: LineChoice) => void;
  readonly picked: boolean;
  /** Returns to the suggestion. */
  readonly follow: () => void;
}

/** Shows the line, its speed and its number, with controls to change each. */
export function LineToShoot(props: LineToShootProps) {
  const { chart, choice, why, waits } = props;
  const { pattern, start, speed } = choice;
  const line = lineAt(chart, pattern, start);
  return (
    <div class="shoot-setup">
      <div class="shoot-line" aria-busy={waits}>
        <h2 id="shoot-title">{why || waits ? 'Shoot this next' : 'Your choice'}</h2>
        <p class="shoot-name">
          <strong>{patternOf(pattern).name}</strong> {startWords(pattern, toDecimal(start))}
        </p>
        {props.picked ? (
          <button type="button" class="key quiet back" onClick={props.follow}>
            Back to the suggested line
          </button>
        ) : (
          <p class="soft-words">
            {waits
              ? 'Working out which line tells most …'
              : why
                ? nextWords(why)
                : patternOf(pattern).path}
          </p>
        )}
      </div>
      <OneOf
        legend="Speed"
        name="table-day-speed"
        options={SPEEDS.map((one) => [one, one] as const)}
        chosen={speed}
        onChoose={(one) => props.choose(atSpeed(chart, choice, one))}
      />
      <AimedAt {...props} />
      <OtherLine {...props} />
      {line && <LineFigure chart={chart} line={line} speed={speed} />}
    </div>
  );
}

/** Shows the number to aim at, which is the chart's unless the player changes it. */
function AimedAt({ chart, choice, choose }: LineToShootProps) {
  const step = formatDecimal(chart.document.printStep);
  const beside = besideWords(chart, choice);
  return (
    <fieldset class="aimed">
      <legend>Aimed at</legend>
      <button
        type="button"
        class="key"
        aria-label={`${step} less`}
        onClick={() => choose(nudged(chart, choice, -1))}
      >
        −
      </button>
      <span class="aimed-number">
        <output aria-label="The number aimed at">{formatDecimal(namedAim(chart, choice))}</output>
        {beside && <span class="soft-words">{beside}</span>}
      </span>
      <button
        type="button"
        class="key"
        aria-label={`${step} more`}
        onClick={() => choose(nudged(chart, choice, 1))}
      >
        +
      </button>
    </fieldset>
  );
}

function OtherLine({ chart, choice, pick }: LineToShootProps) {
  const lines = chart.lines.filter(({ pattern }) => pattern === choice.pattern);
  const toPattern = (pattern: PatternId): void => {
    const own = chart.lines.filter((line) => line.pattern === pattern);
    const line = own[Math.floor(own.length / 2)];
    if (line) pick(chosen(chart, line, choice.speed));
  };
  const patterns = chart.patterns.filter((id) => chart.lines.some(({ pattern }) => pattern === id));
  return (
    <details class="other-line">
      <summary>Another line</summary>
      <div class="other-choices">
        <Choice
          label="Pattern"
          value={choice.pattern}
          options={patterns.map((id) => [id, patternOf(id).name] as const)}
          onChoose={toPattern}
        />
        <Choice
          label="Start"
          value={choice.start}
          options={lines.map(({ start }) => [toNumber(start), formatDecimal(start)] as const)}
          onChoose={(start) => {
            const line = lineAt(chart, choice.pattern, start);
            if (line) pick(chosen(chart, line, choice.speed));
          }}
        />
      </div>
    </details>
  );
}

/** Draws the line on a wide screen, beside the keys. */
function LineFigure(props: {
  readonly chart: Chart;
  readonly line: Chart['lines'][number];
  readonly speed: LineChoice['speed'];
}) {
  const { chart, line, speed } = props;
  const { name, target } = patternOf(line.pattern);
  const { paths } = lineAtSpeeds(chart, line);
  return (
    <div class="shoot-figure">
      <TableFigure
        frame={{ table: chart.setting.table, mirror: PRINTED }}
        label={`${name} from ${formatDecimal(line.start)} at ${speed} speed`}
        counts={[]}
        paths={paths.filter(({ tone }) => tone === speed)}
        target={target}
      />
    </div>
  );
}
