import { type Field, fieldsOf } from '../cards/index.ts';
import { formatDecimal, patternOf } from '../charts/index.ts';
import type { Naming } from '../table/index.ts';
import { keepFocus } from './number-pad.tsx';
import type { Asking } from './phase.ts';
import type { Session } from './session.ts';
import {
  aimWords,
  countedFrom,
  patternName,
  questionWords,
  railName,
  routeWords,
} from './words.ts';

/** The name and the way of the line that is asked. */
export function QuestionTitle({ asking }: { readonly asking: Pick<Asking, 'card' | 'mirror'> }) {
  const pattern = patternOf(asking.card.pattern);
  const name = patternName(pattern, asking.mirror);
  return (
    <header class="question-title">
      <h1>{name}</h1>
      <p>
        {routeWords(pattern, asking.mirror)}
        {name !== pattern.name && `; on the chart ${pattern.name}`}
      </p>
    </header>
  );
}

/** What is given and what is asked, beside the table. */
export function QuestionFacts({
  asking,
  session,
}: {
  readonly asking: Asking;
  readonly session: Session;
}) {
  const { card, mirror } = asking;
  const pattern = patternOf(card.pattern);
  return (
    <div class="facts">
      <p class="visually-hidden" role="status">
        {questionWords(card, mirror, session.naming)}
      </p>
      <Fact
        label="from"
        value={formatDecimal(card.start)}
        note={`${railName(pattern.start.rail, mirror)}, counted from the ${countedFrom(pattern, 'start', mirror)}`}
      />
      {card.kind === 'number' ? (
        <Fact label="speed" value={card.speed} />
      ) : (
        <Fact
          label="its window"
          value=""
          note="How far does the number move from medium? Plus or minus; 0 if it stays."
        />
      )}
      <div class="fields">
        {fieldsOf(card).map((field, index) => (
          <AnswerField
            key={field.name}
            label={fieldLabel(field, session.naming)}
            note={
              field.name === 'aim'
                ? `${railName(pattern.aim.rail, mirror)}, counted from the ${countedFrom(pattern, 'aim', mirror)}`
                : null
            }
            text={asking.texts[index] ?? ''}
            current={index === asking.field}
            onChoose={() => session.goTo(index)}
          />
        ))}
      </div>
    </div>
  );
}

function Fact(props: { readonly label: string; readonly value: string; readonly note?: string }) {
  return (
    <div class="fact">
      <span class="fact-label">{props.label}</span>
      {props.value && <strong class="fact-value">{props.value}</strong>}
      {props.note && <span class="fact-note">{props.note}</span>}
    </div>
  );
}

function AnswerField(props: {
  readonly label: string;
  readonly note: string | null;
  readonly text: string;
  readonly current: boolean;
  readonly onChoose: () => void;
}) {
  const spoken = props.text === '' ? 'empty' : props.text;
  return (
    <div class="answer-field">
      <span class="fact-label">{props.label}</span>
      <button
        type="button"
        class={props.current ? 'answer-box current' : 'answer-box'}
        aria-label={`${props.label}: ${spoken}`}
        aria-pressed={props.current}
        onMouseDown={keepFocus}
        onClick={props.onChoose}
      >
        {props.text.replace('-', '−')}
        {props.current && <span class="caret" />}
      </button>
      {props.note && <span class="fact-note">{props.note}</span>}
    </div>
  );
}

function fieldLabel(field: Field, naming: Naming): string {
  return field.name === 'aim' ? aimWords(naming) : `${field.name}, from medium`;
}
