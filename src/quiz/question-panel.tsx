import { type Field, fieldsOf } from '../cards/index.ts';
import { formatDecimal, patternOf } from '../charts/index.ts';
import type { Mirror, Naming } from '../table/index.ts';
import { mirrorRail } from '../table/index.ts';
import type { Answering, Entry } from './entry.ts';
import { keepFocus } from './number-pad.tsx';
import type { Shown } from './phase.ts';
import { fieldLabel, givenWords, offWords, questionWords, taskWords } from './question-words.ts';
import { countedFrom, patternName, railName } from './words.ts';

/** The name of the pattern that is asked, and what is to be done. */
export function QuestionTitle({ shown }: { readonly shown: Shown }) {
  const pattern = patternOf(shown.question.pattern);
  const name = patternName(pattern, shown.mirror);
  return (
    <header class="question-title">
      <h1>{name}</h1>
      <p>
        {taskWords(shown.question, shown.mirror)}
        {name !== pattern.name && `; on the chart ${pattern.name}`}
      </p>
    </header>
  );
}

/** What is given and what is asked, beside the table. */
export function QuestionFacts(props: {
  readonly shown: Shown;
  readonly entry: Entry;
  readonly answering: Pick<Answering, 'goTo'>;
  readonly naming: Naming;
  /** Are the known numbers shown that a skill is worked out from. */
  readonly given: boolean;
}) {
  const { question, mirror } = props.shown;
  const pattern = patternOf(question.pattern);
  const known = props.given ? givenWords(question, mirror) : [];
  return (
    <div class="facts">
      <p class="visually-hidden" role="status">
        {questionWords(question, mirror, props.naming)}
        {known.length > 0 && ` Known: ${known.join('; ')}.`}
      </p>
      <Fact
        label="from"
        value={formatDecimal(question.start)}
        note={`${railName(pattern.start.rail, mirror)}, counted from the ${countedFrom(pattern, 'start', mirror)}`}
      />
      <KindFacts {...props.shown} naming={props.naming} />
      {known.length > 0 && <KnownNumbers known={known} />}
      {question.kind !== 'trust' && (
        <div class="fields">
          {fieldsOf(question).map((field, index) => (
            <AnswerField
              key={field.name}
              label={fieldLabel(field, props.naming)}
              note={fieldNote(field, mirror)}
              text={props.entry.texts[index] ?? ''}
              current={index === props.entry.field}
              onChoose={() => props.answering.goTo(index)}
            />
          ))}
        </div>
      )}
    </div>
  );
}

/** What only some kinds give. */
function KindFacts({ question, mirror, naming }: Shown & { readonly naming: Naming }) {
  const { speed } = question;
  switch (question.kind) {
    case 'window':
      return (
        <Fact
          label="its window"
          value=""
          note="How far does the number move from medium? Plus or minus; 0 if it stays."
        />
      );
    case 'trust':
      return <Fact label="trust" value="" note="Played as printed: what is this line good for?" />;
    case 'arrival':
      return (
        <>
          <Fact
            label={fieldLabel({ name: 'aim' } as Field, naming)}
            value={formatDecimal(question.aim)}
          />
          <Fact label="speed" value={speed} />
        </>
      );
    case 'rail ball':
    case 'off the rail': {
      const off = question.kind === 'rail ball' ? 'on the' : `${offWords(question.off)} off the`;
      const end = mirrorRail(question.count.from, mirror);
      const rail = railName(question.count.rail, mirror);
      return (
        <>
          <Fact
            label="ball at"
            value={formatDecimal(question.at)}
            note={`${off} ${rail}, counted from the ${end}`}
          />
          <Fact label="speed" value={speed} />
        </>
      );
    }
    default:
      return <Fact label="speed" value={speed} />;
  }
}

function KnownNumbers({ known }: { readonly known: readonly string[] }) {
  return (
    <div class="fact known">
      <span class="fact-label">you know</span>
      <ul>
        {known.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
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

function fieldNote({ count }: Field, mirror: Mirror): string | null {
  if (!count) return null;
  return `${railName(count.rail, mirror)}, counted from the ${mirrorRail(count.from, mirror)}`;
}
