import { useMemo } from 'preact/hooks';
import { KINDS, ZONES } from '../../cards/index.ts';
import type { PatternId } from '../../charts/index.ts';
import { type Bias, biasesOf } from '../../scheduler/index.ts';
import { type DrillModel, freshCode, plannedDrill } from '../parts/drill-plan.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { biasedName, biasFacts, biasHead, biasRemedy } from './bias-words.ts';

type BiasModel = DrillModel & Pick<Model, 'log'>;

/** How many biases are listed at once; a tap shows the others. */
const NAMED = 4;

/**
 * Lists lines and patterns with numbers that the player calls too high or too low more often than
 * by chance.
 */
export function BiasSheet({ model }: { readonly model: BiasModel }) {
  const { memories } = model.log.value;
  const cards = model.cards.value;
  const { printStep } = model.chart.value.document;
  const day = model.day.value;
  const biases = useMemo(
    () => biasesOf(memories, cards, day, printStep),
    [memories, cards, day, printStep],
  );
  return (
    <section class="sheet bias-sheet" aria-labelledby="bias-title">
      <h2 id="bias-title">Which way you miss</h2>
      {biases.length === 0 ? (
        <p class="soft-words">
          No line and no pattern leans to one side beyond chance: each is watched from six days with
          an error on.
        </p>
      ) : (
        <>
          <p>{biasRemedy(biases)}</p>
          <BiasList biases={biases.slice(0, NAMED)} model={model} />
          {biases.length > NAMED && (
            <details>
              <summary>And {biases.length - NAMED} more</summary>
              <BiasList biases={biases.slice(NAMED)} model={model} />
            </details>
          )}
        </>
      )}
    </section>
  );
}

function BiasList(props: { readonly biases: readonly Bias[]; readonly model: BiasModel }) {
  return (
    <ul class="bias-list">
      {props.biases.map((bias) => (
        <BiasItem key={biasedName(bias)} bias={bias} model={props.model} />
      ))}
    </ul>
  );
}

function BiasItem({ bias, model }: { readonly bias: Bias; readonly model: BiasModel }) {
  const pattern = bias.of === 'line' ? bias.card.pattern : bias.pattern;
  const code = useMemo(() => drillOf(pattern, model), [pattern, model]);
  return (
    <li>
      <strong>{biasHead(bias)}</strong>
      <p class="soft-words">{biasFacts(bias)}</p>
      <a href={formatScreen({ name: 'drill', code })}>Drill it: {biasedName(bias)}</a>
    </li>
  );
}

/**
 * Returns the code of a drill of ten questions from all zones of a pattern. They ask for its
 * numbers, and for numbers between them.
 */
function drillOf(pattern: PatternId, model: BiasModel): string {
  const kinds = KINDS.filter((kind) => kind === 'number' || kind === 'in between');
  return freshCode(
    model,
    plannedDrill(model, { patterns: [pattern], zones: ZONES, kinds, count: 10, speeds: 'medium' }),
  );
}
