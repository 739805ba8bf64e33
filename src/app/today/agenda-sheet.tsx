import { isolated } from '../../charts/index.ts';
import { minutesADay, minutesFor, stepsADay, tomorrowWords } from '../../quiz/index.ts';
import { type DayAhead, isAnswer, lastEvent } from '../../scheduler/index.ts';
import { MINUTES, type Occasion, type Settings } from '../../store/index.ts';
import { OneOf } from '../parts/controls.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';

interface AgendaProps {
  readonly model: Pick<Model, 'log' | 'cards' | 'day' | 'settings' | 'changeSettings'>;
  /** What a session of the chosen minutes would ask now. */
  readonly ahead: DayAhead;
  /** How many steps were taken today: lines shown and cards asked. */
  readonly done: number;
  readonly go: AppPorts['go'];
}

/** What is to be asked today, and the key that begins it. */
export function AgendaSheet(props: AgendaProps) {
  const { model, ahead, done } = props;
  const enough = stepsADay(model.settings.value, model.log.value, model.day.value);
  return (
    <section class="sheet agenda">
      {ahead.steps === 0 && (
        <>
          <p class="big">Nothing left for today</p>
          <p class="soft-words">{restWords(model)}</p>
        </>
      )}
      {ahead.steps > 0 && done < enough && <Questions {...props} />}
      {ahead.steps > 0 && done >= enough && <Enough {...props} />}
    </section>
  );
}

function Questions({ model, ahead, go }: AgendaProps) {
  const { cards, fresh, steps } = ahead;
  const log = model.log.value;
  const lines = new Set(fresh.map(({ lineId }) => lineId));
  const review = cards.filter(({ lineId }) => !lines.has(lineId)).length;
  const begun = lastEvent(log, model.day.value, isAnswer)?.day === model.day.value;
  return (
    <>
      <p class="big">
        <strong>{steps}</strong> {steps === 1 ? 'question' : 'questions'}
      </p>
      <p class="soft-words">{agendaWords(review, fresh.length, minutesFor(steps, log))}</p>
      <MinutesChoice model={model} />
      <BeginKey model={model} go={go} label={begun ? 'Continue' : 'Begin'} look="call wide" />
    </>
  );
}

/** The minutes of today are over, but the player may practice more. */
function Enough({ model, go }: AgendaProps) {
  return (
    <>
      <p class="big">Done for today</p>
      <p class="soft-words">{restWords(model)}</p>
      <MinutesChoice model={model} />
      <BeginKey model={model} go={go} label="Practice more" look="quiet wide" />
    </>
  );
}

function BeginKey(
  props: Pick<AgendaProps, 'model' | 'go'> & { readonly label: string; readonly look: string },
) {
  const { settings, day } = props.model;
  const minutes = minutesADay(settings.value, day.value);
  return (
    <button
      type="button"
      class={`key ${props.look}`}
      onClick={() => props.go({ name: 'quiz', minutes })}
    >
      {props.label}
    </button>
  );
}

/** Chooses how long the player practices a day. With match day ahead, its minutes count instead. */
function MinutesChoice({ model }: Pick<AgendaProps, 'model'>) {
  const { minutes, occasion } = model.settings.value;
  const { problem, save } = useSaving();
  if (occasion && occasion.day > model.day.value) return <MatchMinutes occasion={occasion} />;
  const choose = (wanted: Settings['minutes']): void => {
    save(model.changeSettings({ minutes: wanted }));
  };
  return (
    <div class="minutes">
      <OneOf
        legend="Minutes a day"
        name="minutes"
        options={MINUTES.map((one) => [one, String(one)] as const)}
        chosen={minutes}
        onChoose={choose}
      />
      <Problem say={problem} />
    </div>
  );
}

function MatchMinutes({ occasion }: { readonly occasion: Occasion }) {
  return (
    <p class="soft-words">
      {occasion.minutes} minutes a day until {isolated(occasion.name)}.{' '}
      <a href={formatScreen({ name: 'memory' })}>Change</a>
    </p>
  );
}

/** "12 to review, 3 new lines · about 5 min". */
function agendaWords(review: number, fresh: number, about: number): string {
  const parts = [
    review > 0 ? `${review} to review` : '',
    fresh > 0 ? `${fresh} new ${fresh === 1 ? 'line' : 'lines'}` : '',
  ].filter(Boolean);
  return `${parts.join(', ')} · about ${about} min`;
}

function restWords({ cards, log, day, settings }: AgendaProps['model']): string {
  const begun = log.value.met.size + log.value.memories.size > 0;
  if (settings.value.newLinesADay === 0 && !begun) return 'New lines are off, in Settings.';
  return tomorrowWords(cards.value, log.value, day.value, settings.value);
}
