import './ear.css';
import { FocusedButton } from '../stage/answer-panel.tsx';
import { CAUTION } from './flow.ts';
import type { EarPhase, EarScore } from './phase.ts';
import type { EarSession } from './session.ts';
import { HALF_AS_FAR } from './stage.tsx';

const NO_VOICE =
  'The browser offers no English voice that is on this device. One can be installed in the device’s settings, under speech or text to speech; then open this page anew. The questions can be read instead.';

/** The screen before the first question: the caution, how it works, and the button that begins. */
export function EarReady(props: {
  readonly session: EarSession;
  readonly pauseSeconds: number;
  readonly leave: () => void;
}) {
  const { session } = props;
  const found = session.found.value;
  return (
    <main class="ear" data-phase="ready">
      <div class="ear-panel">
        <h1>By ear</h1>
        <p class="ear-caution">{CAUTION}</p>
        <p>
          A line is asked{found === 'none' ? ', ' : ' aloud, '}
          {props.pauseSeconds} seconds later its number is told, and you say whether you got it.
        </p>
        <p>
          Touch the left half for “Missed”, the right half for “Got it”. A headset’s keys do the
          same: back for Missed, forward for Got it, play for a pause.
        </p>
        <p class="ear-keys">
          On a keyboard: Enter or → Got it, Backspace or ← Missed, Space pause, R say it again.
        </p>
        <p>{HALF_AS_FAR}</p>
        <p role="status" class="ear-problem">
          {found === 'looking' && 'Looking for a voice on this device…'}
          {found === 'none' && NO_VOICE}
        </p>
        <div class="ear-actions">
          <button type="button" class="ear-key" onClick={props.leave}>
            To Today
          </button>
          {found === 'voice' && (
            <button type="button" class="ear-key" onClick={() => session.begin(false)}>
              Begin without voice
            </button>
          )}
          {found === 'voice' && <FocusedButton label="Begin" onPress={() => session.begin(true)} />}
          {found === 'none' && (
            <FocusedButton label="Begin without voice" onPress={() => session.begin(false)} />
          )}
        </div>
      </div>
    </main>
  );
}

/** The screen when nothing is left to ask, or when the player has not met any line yet. */
export function EarDone(props: {
  readonly why: Extract<EarPhase, { readonly at: 'done' }>['why'];
  readonly score: EarScore;
  readonly leave: () => void;
  readonly quiz: () => void;
}) {
  const { why, score } = props;
  const none = why === 'none met';
  const asked = score.hadIt + score.not;
  return (
    <main class="ear" data-phase="done">
      <div class="ear-panel">
        <h1>{none ? 'No line met yet' : 'Nothing left by ear today'}</h1>
        {none ? (
          <p>
            By ear asks only lines that you have met with their pictures. Meet the first ones in the
            quiz.
          </p>
        ) : (
          <p>Every line you have met was asked today, is well known, or is set aside.</p>
        )}
        {asked > 0 && (
          <>
            <p>
              {asked} asked here: {score.hadIt} got it, {score.not} missed.
            </p>
            <p>{HALF_AS_FAR}</p>
          </>
        )}
        <div class="ear-actions">
          {none && (
            <button type="button" class="ear-key" onClick={props.leave}>
              To Today
            </button>
          )}
          <FocusedButton
            label={none ? 'Quiz' : 'To Today'}
            onPress={none ? props.quiz : props.leave}
          />
        </div>
      </div>
    </main>
  );
}
