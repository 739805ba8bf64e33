import './rehearsal.css';
import { useMemo, useState } from 'preact/hooks';
import { createRehearsal, RehearsalRun, sourceOf, totalsOf } from '../../quiz/index.ts';
import { type RehearsalDraft, type Rehearsed, rehearsals } from '../../scheduler/index.ts';
import { dateWords } from '../parts/date-words.ts';
import { Page } from '../parts/page.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import { Drop, type DroppingModel } from './rehearsal-drop.tsx';
import { RehearsalSetup } from './rehearsal-setup.tsx';

type RehearsalPorts = Pick<AppPorts, 'model' | 'go' | 'stopwatch'>;

interface RunProps extends RehearsalPorts {
  readonly draft: RehearsalDraft;
  /** Starts or resumes a draft; null leaves the rehearsal. */
  readonly run: (draft: RehearsalDraft | null) => void;
}

/**
 * Shows the rehearsal under way or the setup of a new one, and the score sheets of finished ones.
 */
export function RehearsalScreen(props: RehearsalPorts) {
  const { model } = props;
  const stored = model.rehearsal.value;
  const [running, run] = useState<RehearsalDraft | null>(null);
  if (running) {
    const key = `${running.id} ${running.answers.length}`;
    return <Run {...props} key={key} draft={running} run={run} />;
  }
  return (
    <Page title="Rehearsal">
      <div class="sheets rehearsal">
        {stored ? (
          <Interrupted model={model} draft={stored} resume={() => run(stored)} />
        ) : (
          <RehearsalSetup model={model} begun={run} />
        )}
        <Past events={rehearsals(model.log.value)} />
      </div>
    </Page>
  );
}

function Run(props: RunProps) {
  const { model, go, draft, run } = props;
  const openSheet = ({ id }: { readonly id: string }) =>
    go({ name: 'score-sheet', id, question: null });
  const { source, session } = useRehearsal(props, openSheet);
  const finished = rehearsals(model.log.value).find((one) => one.began === draft.began) ?? null;
  return (
    <RehearsalRun
      session={session}
      chart={source.chart}
      finished={finished !== null}
      leave={() => run(null)}
      drop={<Drop model={model} id={draft.id} dropped={() => run(null)} />}
      goOnHere={() => run(model.rehearsal.peek())}
      openSheet={() => finished && openSheet(finished)}
    />
  );
}

function useRehearsal(
  { model, stopwatch, draft }: Pick<RunProps, 'model' | 'stopwatch' | 'draft'>,
  ended: (event: { readonly id: string }) => void,
) {
  // A rehearsal keeps the terms that it began with, whatever has changed since.
  const source = useMemo(() => sourceOf(model.chartOf(draft.chart), draft), [draft]);
  const session = useMemo(
    () =>
      createRehearsal(
        {
          source,
          log: model.log,
          stored: model.rehearsal,
          save: model.saveRehearsal,
          finish: model.finishRehearsal,
          ended,
          now: model.now,
          today: model.today,
          stopwatch,
        },
        draft,
      ),
    [draft],
  );
  return { source, session };
}

/**
 * Offers to resume or drop a rehearsal that is not finished. It may have begun in this tab, at an
 * earlier time, or in another tab.
 */
function Interrupted(props: {
  readonly model: DroppingModel;
  readonly draft: RehearsalDraft;
  readonly resume: () => void;
}) {
  const { draft } = props;
  const { clock, counts } = draft.spec;
  return (
    <section class="sheet">
      <h2>Under way</h2>
      <p>
        Begun {dateWords(draft.began)}, {clock === null ? 'no shot clock' : `${clock} s a question`}
        . You’ll restart that question{clock === null ? '' : ', with a fresh clock'}.
      </p>
      <p class="soft-words">
        {counts ? 'It counts' : 'It does not count'} for memory. Nothing of it is in the log until
        it is finished.
      </p>
      <div class="actions rehearsal-actions">
        <Drop model={props.model} id={draft.id} />
        <button type="button" class="key call" onClick={props.resume}>
          Resume ({draft.answers.length} of {draft.cards.length} answered)
        </button>
      </div>
    </section>
  );
}

/** Lists the score sheets of finished rehearsals, newest first. */
function Past({ events }: { readonly events: readonly Rehearsed[] }) {
  if (events.length === 0) return null;
  return (
    <section class="sheet">
      <h2>Score sheets</h2>
      <ol class="past">
        {[...events].reverse().map((event) => {
          const { made, questions } = totalsOf(event.questions);
          return (
            <li key={event.id}>
              <a href={formatScreen({ name: 'score-sheet', id: event.id, question: null })}>
                <span>{dateWords(event.at)}</span>
                <strong>
                  {made} of {questions} made
                </strong>
              </a>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
