import './answer.css';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Speed } from '../../table/index.ts';
import type { Cue } from '../words/cue.ts';
import type { Feedback, Headline, SpeedNumber } from '../words/feedback.ts';
import type { Working } from '../words/working.ts';
import { isSecondTap } from './double-tap.ts';

/** Shows the outcome, what the ball would have done, and how to work out the number. */
export function AnswerPanel(props: {
  readonly headline: Headline;
  /** The rest of the words. While it is null, neither they nor the buttons show. */
  readonly more: ComponentChildren | null;
  readonly problem: string | null;
  readonly onNext: () => void;
  readonly onTakeBack: (() => void) | null;
}) {
  const { headline, onTakeBack } = props;
  return (
    <section class="answer-panel" aria-label="Your answer">
      <div class="said" role="status">
        <h2 class={`outcome ${headline.outcome.replace(' ', '-')}`}>{headline.heading}</h2>
        <p class="verdict">{headline.verdict}</p>
      </div>
      {props.more}
      {props.problem && <p class="problem">{props.problem}</p>}
      <div class="answer-actions">
        {onTakeBack && props.more && (
          <button type="button" class="key quiet" onClick={onTakeBack}>
            Take back
          </button>
        )}
        {props.more && <FocusedButton label="Next" onPress={props.onNext} />}
      </div>
    </section>
  );
}

/** Shows the words that belong to the picture of what the ball would have done. */
export function AnswerDetails(props: {
  readonly feedback: Feedback;
  readonly cue: Cue | null;
  /** The anchors next to the line, in words. */
  readonly beside: string | null;
  /** What the author of the chart says about the line. */
  readonly remark: string | null;
  /** Rolls the balls again. */
  readonly onRoll: () => void;
  readonly children?: ComponentChildren;
}) {
  const { feedback } = props;
  return (
    <>
      {feedback.ball && (
        <p class="ball-words" role="status">
          {feedback.ball}
        </p>
      )}
      {feedback.speeds.length > 0 && (
        <SpeedTable speeds={feedback.speeds} chosen={feedback.speed} />
      )}
      <div class="legend-row">
        <Legend legend={feedback.legend} speed={feedback.speed} />
        {feedback.legend !== 'speeds' && (
          <button type="button" class="plain" onClick={props.onRoll}>
            Roll again
          </button>
        )}
      </div>
      {feedback.measured && <p class="soft-words measured-words">{feedback.measured}</p>}
      {feedback.working && <WorkingSteps working={feedback.working} />}
      {props.beside && <p class="soft-words">{props.beside}</p>}
      <ChartRemark remark={props.remark} />
      {props.cue && <CueBox cue={props.cue} />}
      {props.children}
    </>
  );
}

export function ChartRemark({ remark }: { readonly remark: string | null }) {
  return remark === null ? null : <p class="chart-remark">The chart says: {remark}</p>;
}

function WorkingSteps({ working }: { readonly working: Working }) {
  return (
    <ol class="working-steps" aria-label="In the head">
      {working.steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ol>
  );
}

/**
 * Asks a question, and opens its answer on a press. Recalling the answer is practice; reading it is
 * not.
 */
export function CueBox({ cue }: { readonly cue: Cue }) {
  return (
    <details class="step-cue">
      <summary>{cue.ask}</summary>
      <p>{cue.tell}</p>
    </details>
  );
}

/** A button that takes the focus when it appears, so that Enter presses it. */
export function FocusedButton(props: { readonly label: string; readonly onPress: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  const shown = useRef(0);
  useEffect(() => {
    shown.current = performance.now();
    button.current?.focus({ preventScroll: true });
  }, []);
  const press = (event: MouseEvent): void => {
    if (isSecondTap(event, performance.now() - shown.current)) return;
    props.onPress();
  };
  return (
    <button type="button" ref={button} class="key call" onClick={press}>
      {props.label}
    </button>
  );
}

export function SpeedTable(props: {
  readonly speeds: readonly SpeedNumber[];
  readonly chosen: Speed;
}) {
  const { speeds, chosen } = props;
  return (
    <table class="speeds">
      <thead>
        <tr>
          {speeds.map(({ speed }) => (
            <th key={speed} scope="col">
              {speed}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        <tr>
          {speeds.map(({ speed, printed, movement }) => (
            <td key={speed} class={speed === chosen ? 'chosen' : ''}>
              <strong>{printed}</strong>
              <span>{movement || ' '}</span>
            </td>
          ))}
        </tr>
      </tbody>
    </table>
  );
}

export function Legend(props: { readonly legend: Feedback['legend']; readonly speed: Speed }) {
  if (props.legend === 'speeds') return <SpeedLegend />;
  return (
    <p class="legend">
      <span class="key-line true" /> line at {props.speed}
      {props.legend === 'both' && (
        <>
          <span class="key-line yours" /> your number
        </>
      )}
    </p>
  );
}

export function SpeedLegend() {
  return (
    <p class="legend">
      <span class="key-line soft" /> soft
      <span class="key-line medium" /> medium
      <span class="key-line firm" /> firm
    </p>
  );
}
