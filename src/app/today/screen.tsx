import './today.css';
import { useEffect, useMemo } from 'preact/hooks';
import { stepsADay, wishOf } from '../../quiz/index.ts';
import { dayAhead, type LogState, stepsOn } from '../../scheduler/index.ts';
import { ChartChoice } from '../parts/chart-choice.tsx';
import { beside } from '../parts/lazy.tsx';
import { OccasionLine } from '../parts/occasion-line.tsx';
import { Page } from '../parts/page.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen, type Screen } from '../router.ts';
import { AgendaSheet } from './agenda-sheet.tsx';
import { HeldSheet } from './held-sheet.tsx';
import { RehearsalLine } from './rehearsal-line.tsx';

const StartsFigure = beside(async () => (await import('./starts-figure.tsx')).StartsFigure);
const MovedSheet = beside(async () => (await import('./moved-sheet.tsx')).MovedSheet);

export function TodayScreen({ model, go, offline }: Pick<AppPorts, 'model' | 'go' | 'offline'>) {
  const log = model.log.value;
  const cards = model.cards.value;
  const today = model.day.value;
  const onDevice = offline.value;
  const outlook = model.outlook.value;
  const settings = model.settings.value;
  const { occasion } = settings;
  useEffect(() => {
    if (occasion && occasion.day > today) model.forecast();
  }, [log, cards, settings, today]);
  const ahead = useMemo(
    () => dayAhead(cards, log, today, wishOf(settings), stepsADay(settings, log, today)),
    [cards, log, today, settings],
  );
  return (
    <Page title="Today">
      <div class="today">
        <ChartChoice model={model} />
        {onDevice && <onDevice.Offer offline={onDevice} />}
        <AgendaSheet model={model} ahead={ahead} done={stepsOn(log, today)} go={go} />
        <OccasionLine
          occasion={occasion}
          today={today}
          forecast={outlook.at === 'made' ? outlook.forecast : null}
        />
        {log.moved.size > 0 && <MovedSheet model={model} />}
        <RehearsalLine draft={model.rehearsal.value} />
        {isFirstStart(log) && <OfferPlacement />}
        <OtherScreens />
        <HeldSheet model={model} />
        <StartsFigure model={model} cards={[...ahead.cards, ...ahead.fresh]} />
        <p class="soft-words">
          Numbers are aids: tables differ, so check a line on the table before you trust it.
        </p>
      </div>
    </Page>
  );
}

/**
 * Returns whether nothing was met and nothing has a memory. Then the player may know some lines
 * already.
 */
function isFirstStart({ met, memories }: LogState): boolean {
  return met.size === 0 && memories.size === 0;
}

function OfferPlacement() {
  return (
    <section class="sheet offer" aria-label="Placement">
      <p>Not new to these lines? A short check proves the ones you know, so they are not taught.</p>
      <a class="key quiet" href={formatScreen({ name: 'placement' })}>
        Skip lines I already know
      </a>
    </section>
  );
}

/** Links to other things that the player can do now. */
function OtherScreens() {
  return (
    <ul class="ways">
      {OTHERS.map(({ screen, label, note }) => (
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

const OTHERS = [
  { screen: { name: 'look-up' }, label: 'Look up', note: 'any start and target, at the table' },
  { screen: { name: 'table-day' }, label: 'Table day', note: 'tune the numbers to this table' },
  { screen: { name: 'memory' }, label: 'Memory', note: 'what you know now and on match day' },
  { screen: { name: 'ear' }, label: 'By ear', note: 'questions spoken, eyes free' },
  { screen: { name: 'placement' }, label: 'Placement', note: 'prove the lines you know' },
] as const satisfies readonly { screen: Screen; label: string; note: string }[];
