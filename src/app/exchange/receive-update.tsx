import { useMemo } from 'preact/hooks';
import {
  type Chart,
  type ChartDocument,
  type Conflict,
  cellKey,
  changedCell,
  computeChart,
  diffStates,
  type Merge,
  mergeWhy,
  receiptOf,
  type Settling,
} from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { ChangeList } from '../parts/changes/change-list.tsx';
import type { Reading } from '../parts/changes/change-words.ts';
import { ChangedLines } from '../parts/changes/changed-lines.tsx';
import { effectWords } from '../parts/changes/effect-words.ts';
import { type EffectsModel, useEffects } from '../parts/changes/known-effects.ts';
import { Problem } from '../parts/saving.tsx';
import { SignatureFields, type SigningModel, useSigning } from '../parts/signature.tsx';
import { Conflicts } from './conflicts.tsx';
import type { useKeeping } from './receive-head.tsx';

/** The merges that result in a document. */
type Update = Extract<Merge, { readonly document: ChartDocument }>;

export type UpdateModel = SigningModel & EffectsModel;

interface UpdateProps {
  readonly model: UpdateModel;
  readonly mine: ChartDocument;
  readonly theirs: Chart;
  readonly merge: Update;
  readonly settling: Settling;
  readonly settle: (settling: Settling) => void;
  readonly keeping: ReturnType<typeof useKeeping>;
}

/** Shows what would change and what would stay, and asks the player to decide. */
export function UpdateSheets(props: UpdateProps) {
  const { model, mine, theirs, merge, settling, settle } = props;
  const settings = model.settings.value;
  const { naming } = settings;
  const before = useMemo(() => computeChart(mine, naming), [mine, naming]);
  const after = useMemo(() => computeChart(merge.document, naming), [merge, naming]);
  const changes = diffStates(before.state, after.state);
  const others = changes.filter((change) => changedCell(change).of !== 'number');
  const conflicts = merge.outcome === 'merged' ? merge.conflicts : [];
  const reading: Reading = {
    table: after.setting.table,
    naming,
    units: settings.units,
    levels: after.state.levels ?? before.state.levels ?? theirs.state.levels,
  };
  return (
    <>
      {conflicts.length > 0 && (
        <Conflicts conflicts={conflicts} reading={reading} settling={settling} settle={settle} />
      )}
      <section class="sheet" aria-labelledby="changes-title">
        <h2 id="changes-title">What changes for you</h2>
        <ChangedLines
          before={before}
          after={after}
          names={['your chart', 'with theirs']}
          tolerance={toleranceOf(settings)}
        />
        {others.length > 0 && <ChangeList changes={others} reading={reading} />}
      </section>
      <Staying theirs={theirs} after={after} conflicts={conflicts} reading={reading} />
      <Decision {...props} />
    </>
  );
}

/** Lists the player's own changes that the other chart does not have, without those in conflict. */
function Staying(props: {
  readonly theirs: Chart;
  readonly after: Chart;
  readonly conflicts: readonly Conflict[];
  readonly reading: Reading;
}) {
  const { theirs, after, conflicts, reading } = props;
  const settled = new Set(
    conflicts
      .flatMap(({ mine, theirs: other }) => [mine, other])
      .map((cell) => cell && cellKey(cell)),
  );
  const own = diffStates(theirs.state, after.state).filter(
    (change) => !settled.has(cellKey(changedCell(change))),
  );
  if (own.length === 0) return null;
  return (
    <section class="sheet" aria-labelledby="staying-title">
      <h2 id="staying-title">What is yours and stays</h2>
      <ChangeList changes={own} reading={reading} sides={['theirs', 'yours']} />
    </section>
  );
}

function Decision({ model, mine, theirs, merge, settling, keeping }: UpdateProps) {
  const { document } = theirs;
  const signing = useSigning(model, mergeWhy(document));
  const signed = merge.outcome === 'merged' && merge.signed;
  const effects = useEffects(model, merge.document);
  const accept = (): void => {
    const make = (): ChartDocument | null => {
      // Another tab may have changed the chart since this was rendered.
      if (!model.charts.peek().includes(mine)) return null;
      if (!signed) return merge.document;
      const receipt = receiptOf([mine], document, settling, signing.signature);
      return receipt.at === 'known' && 'document' in receipt.merge ? receipt.merge.document : null;
    };
    const words = `Taken in. ${effects ? effectWords(effects) : ''}`;
    void keeping.keep(make, words, signed ? { before: signing.remember } : {});
  };
  return (
    <section class="sheet" aria-labelledby="decision-title">
      <h2 id="decision-title">What it does to what you know</h2>
      <p role="status">{effects ? effectWords(effects) : 'Working it out'}</p>
      {signed && (
        <>
          <p class="soft-words">Joining the two makes a revision of your own, with your name.</p>
          <SignatureFields signing={signing} />
        </>
      )}
      <div class="restore-actions">
        <button
          type="button"
          class="key call"
          disabled={keeping.busy || !effects || (signed && signing.missing !== null)}
          onClick={accept}
        >
          Take it in
        </button>
        <a class="key quiet" href="#/charts">
          Leave it
        </a>
      </div>
      <Problem say={keeping.problem} />
    </section>
  );
}
