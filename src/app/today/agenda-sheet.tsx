import { minutesFor, nextDue, nextDueWords, queueSettings } from '../../quiz/index.ts';
import { type agendaFor, isAnswer, lastEvent } from '../../scheduler/index.ts';
import { MINUTES } from '../../store/index.ts';
import { OneOf } from '../parts/controls.tsx';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { AppPorts } from '../ports.ts';
import type { Minutes } from '../router.ts';
import type { Model } from '../state/model.ts';

interface AgendaProps {
  readonly model: Pick<Model, 'log' | 'cards' | 'day' | 'plan' | 'settings' | 'changeSettings'>;
  readonly agenda: ReturnType<typeof agendaFor>;
  readonly go: AppPorts['go'];
}

/** Shows how many questions are to be asked today, with a key that begins them. */
export function AgendaSheet({ model, agenda, go }: AgendaProps) {
  const count = agenda.due.length + agenda.fresh.length;
  return (
    <section class="sheet agenda">
      {count > 0 ? (
        <Questions model={model} agenda={agenda} go={go} />
      ) : (
        <>
          <p class="big">Nothing due</p>
          <p class="soft-words">{restWords(model)}</p>
        </>
      )}
    </section>
  );
}

function Questions({ model, agenda: { due, fresh }, go }: AgendaProps) {
  const log = model.log.value;
  const today = model.day.value;
  const count = due.length + fresh.length;
  return (
    <>
      <p class="big">
        <strong>{count}</strong> {count === 1 ? 'question' : 'questions'}
      </p>
      <p class="soft-words">{agendaWords(due.length, fresh.length, minutesFor(count, log))}</p>
      <MinutesChoice model={model} />
      <button
        type="button"
        class="key call wide"
        onClick={() => go({ name: 'quiz', minutes: model.settings.value.minutes })}
      >
        {lastEvent(log, today, isAnswer)?.day === today ? 'Go on' : 'Begin'}
      </button>
    </>
  );
}

/** Asks how much time the player has. The choice stays for next time. */
function MinutesChoice({ model }: Pick<AgendaProps, 'model'>) {
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

function agendaWords(due: number, fresh: number, about: number): string {
  const parts = [
    due > 0 ? `${due} due` : '',
    fresh > 0 ? `${fresh} new ${fresh === 1 ? 'line' : 'lines'}` : '',
  ].filter(Boolean);
  return `${parts.join(', ')} · about ${about} min`;
}

/** Says when the next question comes, or why none does. */
function restWords(model: AgendaProps['model']): string {
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
