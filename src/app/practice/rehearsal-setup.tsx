import { useState } from 'preact/hooks';
import type { Kind } from '../../cards/index.ts';
import {
  FEWEST_CARDS,
  LENGTHS,
  newRehearsal,
  notSaved,
  planRehearsal,
  rehearsable,
  specOfFinished,
  termsOf,
  weigh,
} from '../../quiz/index.ts';
import {
  CLOCKS,
  type RehearsalDraft,
  type RehearsalSpec,
  rehearsals,
} from '../../scheduler/index.ts';
import { OneOf } from '../parts/controls.tsx';
import { Problem } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';
import { KindsSheet, type PartProps, PatternsSheet } from './rehearsal-choices.tsx';
import { Drop, type DroppingModel } from './rehearsal-drop.tsx';

const FIRST_KINDS: readonly Kind[] = ['number', 'window', 'rail ball', 'in between'];

type SetupModel = Pick<
  Model,
  | 'chart'
  | 'cards'
  | 'log'
  | 'settings'
  | 'changeSettings'
  | 'lastRehearsal'
  | 'rehearsalUnreadable'
  | 'saveRehearsal'
  | 'dropRehearsal'
  | 'today'
  | 'now'
>;

/** Lets the player choose what a rehearsal asks, and begins it. */
export function RehearsalSetup(props: {
  readonly model: SetupModel;
  readonly begun: (draft: RehearsalDraft) => void;
}) {
  const { model, begun } = props;
  const { spec, change, found, problem, begin } = useSetup(model, begun);
  return (
    <div class="sheets rehearsal-setup">
      <p class="lead">
        A set against the clock, mixed, as before a tournament. No known numbers are shown, and no
        result until the end.
      </p>
      <section class="sheet">
        <SetPicks spec={spec} change={change} />
        <p class="soft-words" role="status">
          {foundWords(found, spec)}
        </p>
        <Problem say={problem} />
        {model.rehearsalUnreadable.value && <Unreadable model={model} />}
        <button type="button" class="key call wide" onClick={() => void begin()}>
          Start the rehearsal
        </button>
      </section>
      <PatternsSheet model={model} spec={spec} change={change} />
      <KindsSheet spec={spec} change={change} />
    </div>
  );
}

/** Keeps the choices, counts the questions that match them, and begins the rehearsal. */
function useSetup(model: SetupModel, begun: (draft: RehearsalDraft) => void) {
  const [spec, setSpec] = useState<RehearsalSpec>(() => firstSpec(model));
  const [problem, setProblem] = useState<string | null>(null);
  const change = (part: Partial<RehearsalSpec>): void => {
    setProblem(null);
    setSpec({ ...spec, ...part });
  };
  const found = rehearsable(model.cards.value, model.log.value, spec).length;
  const begin = async (): Promise<void> => {
    if (found < FEWEST_CARDS) {
      setProblem(tooFewWords(found, spec));
      return;
    }
    try {
      const draft = draftOf(model, spec);
      // If this one is not saved, another rehearsal is stored already, and the screen shows that
      // one.
      if (await model.saveRehearsal(draft)) begun(draft);
    } catch (error) {
      setProblem(notSaved(error));
    }
  };
  return { spec, change, found, problem, begin };
}

/** Returns the choices of the last rehearsal, without patterns that the chart lacks. */
function firstSpec(model: SetupModel): RehearsalSpec {
  const { patterns } = model.chart.peek();
  const finished = rehearsals(model.log.peek()).at(-1);
  const last = model.lastRehearsal.peek() ?? (finished ? specOfFinished(finished) : null);
  if (!last) return { patterns, kinds: FIRST_KINDS, count: 20, clock: 30, counts: false };
  const kept = patterns.filter((pattern) => last.patterns.includes(pattern));
  return { ...last, patterns: kept.length > 0 ? kept : patterns };
}

/** Lets the player choose how many questions come, how fast, and whether they count for memory. */
function SetPicks({ spec, change }: PartProps) {
  return (
    <>
      <OneOf
        legend="Questions"
        name="count"
        options={LENGTHS.map((count) => [count, String(count)])}
        chosen={spec.count}
        onChoose={(count) => change({ count })}
      />
      <OneOf
        legend="Shot clock"
        name="clock"
        options={[...CLOCKS.map((clock) => [clock, `${clock} s`] as const), [null, 'none']]}
        chosen={spec.clock}
        onChoose={(clock) => change({ clock })}
      />
      <OneOf
        legend="These answers count for memory"
        name="counts"
        options={[
          [true, 'yes'],
          [false, 'no'],
        ]}
        chosen={spec.counts}
        onChoose={(counts) => change({ counts })}
      />
    </>
  );
}

function draftOf(model: SetupModel, spec: RehearsalSpec): RehearsalDraft {
  const log = model.log.peek();
  const cards = rehearsable(model.cards.peek(), log, spec);
  const settings = model.settings.peek();
  const weighed = weigh(cards, log, model.today(), settings.use);
  const terms = termsOf(model.chart.peek(), settings);
  return newRehearsal(spec, terms, model.now(), (seed) => planRehearsal(weighed, spec.count, seed));
}

/**
 * Returns sentences such as "12 different questions to draw from, that you have met. Some come more
 * than once."
 */
function foundWords(found: number, { counts, count }: RehearsalSpec): string {
  const what = counts ? 'that you have met' : 'met or not';
  const often = found >= FEWEST_CARDS && found < count ? ' Some come more than once.' : '';
  return `${found} different ${found === 1 ? 'question' : 'questions'} to draw from, ${what}.${often}`;
}

function tooFewWords(found: number, { counts }: RehearsalSpec): string {
  const how = counts
    ? 'Choose more patterns or kinds, or let it not count.'
    : 'Choose more patterns or kinds.';
  const there = found === 0 ? 'there is none' : `only ${found} ${found === 1 ? 'is' : 'are'} there`;
  return `A rehearsal needs ${FEWEST_CARDS} questions to draw from, and ${there}. ${how}`;
}

/**
 * Shown if a newer version left a rehearsal that this version cannot read. The player must drop it
 * before another can begin.
 */
function Unreadable({ model }: { readonly model: DroppingModel }) {
  return (
    <div class="actions rehearsal-actions">
      <p class="problem" role="alert">
        A rehearsal is under way here that this version cannot read. A newer one can; or drop it.
      </p>
      <Drop model={model} />
    </div>
  );
}
