import './stage.css';
import { type Field, fieldsOf, type Kind } from '../../cards/index.ts';
import { formatDecimal, patternOf } from '../../charts/index.ts';
import { type Mirror, mirrorRail, type Naming } from '../../table/index.ts';
import { KIND_NAMES } from '../words/card.ts';
import { countWords, patternName } from '../words/names.ts';
import { fieldLabel, givenWords, offWords, questionWords, taskWords } from '../words/question.ts';
import type { Answering, Entry } from './entry.ts';
import { keepFocus } from './number-pad.tsx';
import type { Shown } from './phase.ts';

/** Shows the name of the pattern or of the kind of kick, and the task. */
export function QuestionTitle({ shown }: { readonly shown: Shown }) {
  const { question, mirror } = shown;
  const pattern = patternOf(question.pattern);
  const name = isKick(question.kind) ? KIND_NAMES[question.kind] : patternName(pattern, mirror);
  const elsewhere = !isKick(question.kind) && name !== pattern.name;
  return (
    <header class="question-title">
      <h1>{name}</h1>
      <p>
        {taskWords(question, mirror)}
        {elsewhere && `; on the chart ${pattern.name}`}
      </p>
    </header>
  );
}

/** Tells whether a question has a target other than the pattern's own pocket. */
function isKick(kind: Kind): boolean {
  return kind === 'arrival' || kind === 'rail ball' || kind === 'off the rail';
}

/** Shows what is given and what is asked, next to the table. */
export function QuestionFacts(props: {
  readonly shown: Shown;
  readonly entry: Entry;
  readonly answering: Pick<Answering, 'goTo'>;
  readonly naming: Naming;
  /** Whether the screen shows the known numbers that a skill is worked out from. */
  readonly given: boolean;
}) {
  const { question, mirror } = props.shown;
  const pattern = patternOf(question.pattern);
  const known = props.given ? givenWords(question) : [];
  return (
    <div class="facts">
      <p class="visually-hidden" role="status">
        {questionWords(question, mirror, props.naming)}
        {known.length > 0 && ` Known: ${known.join('; ')}.`}
      </p>
      <Fact
        label="from"
        value={formatDecimal(question.start)}
        note={countWords(pattern.start, mirror)}
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

/** Shows facts that only some kinds of questions have. */
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
      return (
        <Fact
          label="trust"
          value=""
          note="At the best of its three speeds: what is this line good for?"
        />
      );
    case 'arrival':
      return (
        <>
          <Fact
            label={fieldLabel({ name: 'aim' } as Field, naming)}
            value={formatDecimal(question.aim)}
          />
          <Speed speed={speed} />
        </>
      );
    case 'rail ball':
    case 'off the rail': {
      // The picture and the sentence above already name the rail, and there is room for only two
      // lines.
      const words =
        question.kind === 'rail ball'
          ? countWords(question.count, mirror)
          : `from the ${mirrorRail(question.count.from, mirror)}; ${offWords(question.off)} off the rail`;
      const place = question.kind === 'rail ball' ? 'ball at' : 'ball level with';
      return (
        <>
          <Fact label={place} value={formatDecimal(question.at)} note={words} />
          <Speed speed={speed} />
        </>
      );
    }
    default:
      return <Speed speed={speed} />;
  }
}

function Speed({ speed }: { readonly speed: string }) {
  return (
    <p class="fact-speed">
      <strong>{speed}</strong> speed
    </p>
  );
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
  return countWords(count, mirror);
}
