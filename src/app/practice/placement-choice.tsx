import { useMemo, useState } from 'preact/hooks';
import { type PatternId, patternOf } from '../../charts/index.ts';
import { type Choosable, choosable, ENDS_WORDS, PROVED_WORDS } from '../../quiz/index.ts';
import { Page } from '../parts/page.tsx';
import type { Model } from '../state/model.ts';

interface ChoiceProps {
  readonly model: Pick<Model, 'chart' | 'cards' | 'log' | 'settings'>;
  /**
   * Patterns that the player tried just now. Their numbers were shown, so they are not chosen at
   * first.
   */
  readonly tried: readonly PatternId[];
  readonly begin: (patterns: readonly PatternId[]) => void;
}

/** Lets the player choose the patterns whose lines they know. */
export function ChoosePatterns({ model, tried, begin }: ChoiceProps) {
  const { offered, open, isChosen, choose } = useChoice(model, tried);
  const chosen = open.filter(isChosen);
  const all = chosen.length === open.length;
  const most = chosen.reduce((sum, one) => sum + one.most, 0);
  return (
    <Page title="Placement">
      <p class="lead">
        Choose the patterns you know. Their anchors are asked first, and what you prove is not
        taught again. {ENDS_WORDS}
      </p>
      <fieldset class="sheet choose-patterns">
        <legend class="visually-hidden">Patterns</legend>
        {open.length > 1 && (
          <button type="button" class="plain" onClick={() => choose(open, !all)}>
            {all ? 'Choose none' : 'Choose all'}
          </button>
        )}
        {offered.map((one) => (
          <PatternRow
            key={one.pattern}
            offered={one}
            chosen={one.most > 0 && isChosen(one)}
            choose={(on) => choose([one], on)}
          />
        ))}
      </fieldset>
      <p class="soft-words">{PROVED_WORDS} You can stop at any time: what is proven stays.</p>
      <div class="placement-begin">
        <button
          type="button"
          class="key call wide"
          disabled={chosen.length === 0}
          onClick={() => begin(chosen.map(({ pattern }) => pattern))}
        >
          {beginWords(open.length, chosen.length, most)}
        </button>
      </div>
    </Page>
  );
}

/** Returns the patterns on offer, those that still have questions, and which of them are chosen. */
function useChoice(model: ChoiceProps['model'], tried: readonly PatternId[]) {
  const chart = model.chart.value;
  const cards = model.cards.value;
  const log = model.log.value;
  const settings = model.settings.value;
  const offered = useMemo(
    () => choosable({ chart, cards, log, settings }),
    [chart, cards, log, settings],
  );
  const [changed, setChanged] = useState<ReadonlyMap<PatternId, boolean>>(new Map());
  const open = offered.filter(({ most }) => most > 0);
  const isChosen = ({ pattern, wanted }: Choosable): boolean =>
    changed.get(pattern) ?? (wanted && !tried.includes(pattern));
  const choose = (which: readonly Choosable[], on: boolean): void =>
    setChanged(new Map([...changed, ...which.map(({ pattern }) => [pattern, on] as const)]));
  return { offered, open, isChosen, choose };
}

function beginWords(open: number, chosen: number, most: number): string {
  if (open === 0) return 'Nothing left to prove';
  if (chosen === 0) return 'Choose a pattern';
  return `Begin: at most ${most} ${most === 1 ? 'question' : 'questions'}`;
}

function PatternRow(props: {
  readonly offered: Choosable;
  readonly chosen: boolean;
  readonly choose: (on: boolean) => void;
}) {
  const { offered, chosen, choose } = props;
  return (
    <label class="check pattern-row">
      <input
        type="checkbox"
        checked={chosen}
        disabled={offered.most === 0}
        onChange={(event) => choose(event.currentTarget.checked)}
      />
      <span>
        <strong>{patternOf(offered.pattern).name}</strong>
        <span class="soft-words">{rowWords(offered)}</span>
      </span>
    </label>
  );
}

/**
 * Returns words such as "15 lines; at most 6 questions" or "12 of 15 lines met; nothing left to
 * prove".
 */
function rowWords({ lines, begun, most }: Choosable): string {
  const met = begun === 0 ? '' : `${begun} of `;
  const counted = `${met}${lines} ${lines === 1 ? 'line' : 'lines'}${begun === 0 ? '' : ' met'}`;
  if (most === 0) return `${counted}; nothing left to prove`;
  return `${counted}; at most ${most} ${most === 1 ? 'question' : 'questions'}`;
}
