import './today.css';
import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { isLineCard } from '../../cards/index.ts';
import { isolated, patternOf, toNumber } from '../../charts/index.ts';
import { PlacesFigure } from '../../figure/index.ts';
import { minutesFor, nextDue, nextDueWords, queueSettings } from '../../quiz/index.ts';
import { agendaFor, heldOn, isAnswer, type LogState, lastEvent } from '../../scheduler/index.ts';
import { MINUTES } from '../../store/index.ts';
import { MIRRORS, type Mirror } from '../../table/index.ts';
import type { Offline } from '../device/offline.ts';
import { ChartChoice } from '../parts/chart-choice.tsx';
import { OneOf } from '../parts/controls.tsx';
import { beside } from '../parts/lazy.tsx';
import { OccasionLine } from '../parts/occasion-line.tsx';
import { Page } from '../parts/page.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import { formatScreen, type Minutes, type Screen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { RehearsalLine } from './rehearsal-line.tsx';

const MovedSheet = beside(async () => (await import('./moved-sheet.tsx')).MovedSheet);

interface Props {
  readonly model: Model;
  readonly go: (screen: Screen) => void;
  readonly offline: ReadonlySignal<Offline | null>;
}

export function TodayScreen({ model, go, offline }: Props) {
  const log = model.log.value;
  const cards = model.cards.value;
  const today = model.day.value;
  const plan = model.plan.value;
  const kept = offline.value;
  const outlook = model.outlook.value;
  const settings = queueSettings(model.settings.value, plan);
  // Not while questions are asked, so that a session keeps to the plan that it began with.
  useEffect(model.replan, [log, cards, model.settings.value, today]);
  const agenda = useMemo(
    () => agendaFor(cards, log, today, settings),
    [cards, log, today, model.settings.value, plan],
  );
  const { due, fresh } = agenda;
  const count = due.length + fresh.length;
  return (
    <Page title="Today">
      <div class="today">
        <ChartChoice model={model} />
        {kept && <kept.Offer offline={kept} />}
        <section class="sheet agenda">
          {count > 0 ? (
            <>
              <p class="big">
                <strong>{count}</strong> {count === 1 ? 'question' : 'questions'}
              </p>
              <p class="soft-words">
                {agendaWords(due.length, fresh.length, minutesFor(count, log))}
              </p>
              <MinutesChoice model={model} />
              <button
                type="button"
                class="key call wide"
                onClick={() => go({ name: 'quiz', minutes: model.settings.value.minutes })}
              >
                {lastEvent(log, today, isAnswer)?.day === today ? 'Go on' : 'Begin'}
              </button>
            </>
          ) : (
            <>
              <p class="big">Nothing due</p>
              <p class="soft-words">{restWords(model)}</p>
            </>
          )}
        </section>
        <OccasionLine
          occasion={model.settings.value.occasion}
          today={today}
          reply={outlook.at === 'made' ? outlook.reply : null}
        />
        {log.moved.size > 0 && <MovedSheet model={model} />}
        <RehearsalLine draft={model.rehearsal.value} />
        {isFirstStart(log) && <OfferPlacement />}
        <Ways />
        <HeldSheet model={model} today={today} />
        <StartsFigure model={model} due={[...due, ...fresh]} />
        <p class="soft-words">
          Numbers are aids: tables differ, so check a line on the table before you trust it.
        </p>
      </div>
    </Page>
  );
}

/** How long the player has; remembered for the next time. */
function MinutesChoice({ model }: { readonly model: Model }) {
  const { minutes } = model.settings.value;
  const { problem, save } = useSaving();
  const choose = (wanted: Minutes): void => {
    save(model.changeSettings({ minutes: wanted }));
  };
  return (
    <div class="minutes">
      <OneOf
        legend="I have"
        name="minutes"
        options={[...MINUTES.map((one) => [one, `${one} min`] as const), [null, 'no limit']]}
        chosen={minutes}
        onChoose={choose}
      />
      <Problem say={problem} />
    </div>
  );
}

/** Nothing was met and nothing is remembered: the player may still know some of it. */
function isFirstStart({ met, memories }: LogState): boolean {
  return met.size === 0 && memories.size === 0;
}

function OfferPlacement() {
  return (
    <section class="sheet offer" aria-label="Placement">
      <p>Not new to these lines? A short check proves the ones you know, so they are not taught.</p>
      <a class="key quiet" href={formatScreen({ name: 'placement' })}>
        I know some of these: placement
      </a>
    </section>
  );
}

/** What else can be done now, a tap away. */
function Ways() {
  return (
    <ul class="ways">
      {WAYS.map(({ screen, label, note }) => (
        <li key={label}>
          <a href={formatScreen(screen)}>
            <strong>{label}</strong>
            <span class="soft-words">{note}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

const WAYS = [
  { screen: { name: 'look-up' }, label: 'Look up', note: 'any start and target, at the table' },
  { screen: { name: 'table-day' }, label: 'Table day', note: 'test shots: what to add tonight' },
  { screen: { name: 'memory' }, label: 'Memory', note: 'what you hold, now and on the day' },
  { screen: { name: 'ear' }, label: 'By ear', note: 'questions spoken, eyes free' },
  { screen: { name: 'placement' }, label: 'Placement', note: 'prove the lines you know' },
] as const satisfies readonly { screen: Screen; label: string; note: string }[];

function agendaWords(due: number, fresh: number, about: number): string {
  const parts = [
    due > 0 ? `${due} due` : '',
    fresh > 0 ? `${fresh} new ${fresh === 1 ? 'line' : 'lines'}` : '',
  ].filter(Boolean);
  return `${parts.join(', ')} · about ${about} min`;
}

/** When there is something again, or why there is nothing. */
function restWords(model: Model): string {
  const { log, settings } = model;
  const none =
    settings.value.newLinesPerDay === 0 && log.value.met.size + log.value.memories.size === 0;
  if (none) return 'No new lines a day are set. Choose some in Settings to begin.';
  return nextDueWords(
    nextDue(
      model.cards.value,
      log.value,
      model.day.value,
      queueSettings(settings.value, model.plan.value),
    ),
  );
}

/** What the player holds now, altogether and by pattern. */
function HeldSheet({ model, today }: { readonly model: Model; readonly today: number }) {
  const log = model.log.value;
  const cards = model.cards.value;
  const chart = model.chart.value;
  const held = heldOn(cards, log, today);
  return (
    <section class="sheet held" aria-labelledby="held-title">
      <h2 id="held-title">You hold</h2>
      <p class="held-total">
        <strong>{Math.round(held.expected)}</strong> of {held.of}{' '}
        {held.low < held.high && held.expected > 0 && (
          <span class="soft-words">
            nine times in ten {held.low}–{held.high}
          </span>
        )}
      </p>
      <ul class="bars">
        {chart.patterns.map((id) => {
          const own = heldOn(
            cards.filter((card) => card.pattern === id),
            log,
            today,
          );
          // A pattern without a line, or with none in the player's level, has nothing to hold.
          if (own.of === 0) return null;
          return (
            <li key={id}>
              <span>{patternOf(id).name}</span>
              <Bar value={own.expected} of={own.of} />
              <span class="number">
                {Math.round(own.expected)}/{own.of}
              </span>
            </li>
          );
        })}
      </ul>
      <p class="soft-words">
        {isolated(chart.document.name)}: {held.of} {held.of === 1 ? 'line' : 'lines'} by their
        numbers. <a href={formatScreen({ name: 'memory' })}>More of what you hold</a>
      </p>
    </section>
  );
}

/** Where today's questions start: no path and no number, only places. */
function StartsFigure(props: {
  readonly model: Model;
  readonly due: ReturnType<typeof agendaFor>['due'];
}) {
  const { model, due } = props;
  const chart = model.chart.value;
  const { table } = chart.setting;
  const frame = { table, mirror: MIRRORS[0] as Mirror };
  const places = new Map(
    due.filter(isLineCard).map((card) => {
      const { start } = patternOf(card.pattern);
      return [`${start.rail} ${start.from} ${card.start}`, card];
    }),
  );
  return (
    <div class="hero">
      <PlacesFigure
        frame={frame}
        label={`The table. Today’s lines start from ${places.size} places.`}
        marks={[...places.values()].map((card) => {
          const { start } = patternOf(card.pattern);
          return { tone: 'start', count: start, diamond: toNumber(card.start) };
        })}
      />
      <p class="soft-words">
        {places.size > 0
          ? 'Where today’s lines start'
          : `${chart.document.name}, foot rail at the top`}
      </p>
    </div>
  );
}

/** Drawn beside the same numbers in words, so screen readers need not hear it. */
function Bar({ value, of }: { readonly value: number; readonly of: number }) {
  return (
    <div class="bar" aria-hidden="true">
      <span style={{ inlineSize: `${(100 * value) / (of || 1)}%` }} />
    </div>
  );
}
