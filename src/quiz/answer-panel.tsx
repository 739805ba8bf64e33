import { useEffect, useRef } from 'preact/hooks';
import type { Feedback, SpeedNumber } from './feedback.ts';

/** The outcome, what the ball would have done, and the number at its three speeds. */
export function AnswerPanel(props: {
  readonly feedback: Feedback;
  readonly problem: string | null;
  readonly onNext: () => void;
  readonly onTakeBack: () => void;
}) {
  const { feedback } = props;
  return (
    <section class="answer-panel" aria-label="Your answer">
      <div role="status">
        <h2 class={`outcome ${feedback.outcome.replace(' ', '-')}`}>{feedback.heading}</h2>
        <p class="verdict">{feedback.verdict}</p>
        <p class="ball-words">{feedback.ball}</p>
      </div>
      <SpeedTable speeds={feedback.speeds} />
      <Legend yours={feedback.figure.paths.some((path) => path.tone === 'yours')} />
      {props.problem && <p class="problem">{props.problem}</p>}
      <div class="answer-actions">
        <button type="button" class="key quiet" onClick={props.onTakeBack}>
          Take back
        </button>
        <FocusedButton label="Next" onPress={props.onNext} />
      </div>
    </section>
  );
}

/** Takes the focus when it appears, so that Enter goes on. */
export function FocusedButton(props: { readonly label: string; readonly onPress: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => button.current?.focus({ preventScroll: true }), []);
  return (
    <button type="button" ref={button} class="key call" onClick={props.onPress}>
      {props.label}
    </button>
  );
}

export function SpeedTable({ speeds }: { readonly speeds: readonly SpeedNumber[] }) {
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
            <td key={speed} class={speed === 'medium' ? 'medium' : ''}>
              <strong>{printed}</strong>
              <span>{movement || ' '}</span>
            </td>
          ))}
        </tr>
      </tbody>
    </table>
  );
}

function Legend({ yours }: { readonly yours: boolean }) {
  return (
    <p class="legend">
      <span class="key-line true" /> the line
      {yours && (
        <>
          <span class="key-line yours" /> your number
        </>
      )}
    </p>
  );
}
