import {
  formatDecimal,
  inDiamonds,
  roundTo,
  type SheetLine,
  type SheetNumber,
} from '../../charts/index.ts';
import {
  ChartRemark,
  type Differing,
  lengthWords,
  measuredWords,
  type Units,
} from '../../quiz/index.ts';
import { SPEEDS, type Unreachable } from '../../table/index.ts';
import { missWords } from '../parts/as-printed.tsx';
import { missingWords } from '../parts/missing.ts';
import type { SolvedSheet } from '../state/workbench.ts';
import { VerdictChip } from './numbers.tsx';

/** Shows all facts about the chosen line. */
export function LineSheet(props: {
  readonly worked: SolvedSheet;
  readonly line: SheetLine;
  readonly units: Units;
  /** The remark on the line by the chart's author. */
  readonly remark: string | null;
}) {
  const { worked, line, units } = props;
  const medium = line.atMedium;
  return (
    <section class="sheet line-sheet" aria-label={`The line from ${formatDecimal(line.start)}`}>
      <h2>
        From {formatDecimal(line.start)} <VerdictChip line={line} />
      </h2>
      {line.verdict && <p>{line.verdict.reason}</p>}
      <ChartRemark remark={props.remark} />
      <Measured worked={worked} line={line} />
      <dl class="pairs">
        {SPEEDS.map((speed) => (
          <Fact key={speed} name={speed} say={numberWords(line.numbers[speed])} />
        ))}
        {medium && <AtMedium worked={worked} medium={medium} units={units} />}
      </dl>
      {medium && (
        <p class="soft-words">
          Touch, entry and drift are at medium speed; half-way is the ball lying half-way along the
          line to the cushion, played with the same number.
        </p>
      )}
    </section>
  );
}

function AtMedium(props: {
  readonly worked: SolvedSheet;
  readonly medium: NonNullable<SheetLine['atMedium']>;
  readonly units: Units;
}) {
  const { worked, medium, units } = props;
  const { perTenth, halfWay } = medium.drift;
  return (
    <>
      <Fact name="touches" say={`level with ${medium.touch.toFixed(2)}`} />
      <Fact
        name="comes in"
        say={`${Math.round(medium.entryAngleDeg)}° from ${worked.request.route.target.kind === 'pocket' ? 'straight in' : 'square'}`}
      />
      <Fact name="0.1 of aim" say={`moves the arrival ${driftWords(worked, perTenth, units)}`} />
      <Fact
        name="from half-way"
        say={
          halfWay === null
            ? 'does not arrive'
            : `arrives ${driftWords(worked, halfWay, units)} beside`
        }
      />
    </>
  );
}

/** Says that the line is drawn by its own numbers, if they differ from the model's. */
function Measured({ worked, line }: { readonly worked: SolvedSheet; readonly line: SheetLine }) {
  const { printStep } = worked.request;
  const say = measuredWords(
    SPEEDS.flatMap((speed): readonly Differing[] => {
      const number = line.numbers[speed];
      if (typeof number === 'string' || number.model === null) return [];
      const { source, printed, model } = number;
      return [{ speed, source, printed, model: roundTo(model, printStep) }];
    }),
  );
  return say === null ? null : <p class="soft-words measured-words">{say}</p>;
}

function Fact({ name, say }: { readonly name: string; readonly say: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{say}</dd>
    </>
  );
}

/** Returns words such as "1.8 (1.821, measured), drops from 1.797 to 1.836". */
function numberWords(number: SheetNumber | Unreachable): string {
  if (typeof number === 'string') return `no number: ${missingWords(number)}`;
  const { exact, printed, source, makeWindow } = number;
  const origin = source === 'computed' ? '' : `, ${source}`;
  const said = `${formatDecimal(printed)} (${exact.toFixed(3)}${origin})`;
  if (!makeWindow) return said;
  const { from, to } = makeWindow;
  const drops = `${said}, drops from ${from.toFixed(3)} to ${to.toFixed(3)}`;
  const misses = missWords(number);
  return misses ? `${drops}: ${misses}` : drops;
}

function driftWords(worked: SolvedSheet, metres: number, units: Units): string {
  const diamonds = inDiamonds(worked.request.setting, metres);
  return `${diamonds.toFixed(1)} diamond, ${lengthWords(metres, units)}`;
}
