import './ear.css';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { keepFocus } from '../stage/number-pad.tsx';
import { CAUTION } from './flow.ts';
import { listenByEar } from './keys.ts';
import type { EarPhase, EarQuestion } from './phase.ts';
import type { EarSession } from './session.ts';

/**
 * Says how much the player's own judgment counts; see `scheduler/memory/judged.ts` for the rule.
 */
export const HALF_AS_FAR =
  'Judged by yourself: “Got it” moves a memory half as far as a typed answer; “Missed” counts in full.';

type Running = Exclude<EarPhase, { readonly at: 'ready' | 'done' }>;

/**
 * A dark screen that can be pressed anywhere with the thumb. The question is on top of the areas
 * that answer.
 */
export function EarStage(props: {
  readonly session: EarSession;
  readonly phase: Running;
  readonly leave: () => void;
}) {
  const { session, phase } = props;
  const frame = useRef<HTMLElement>(null);
  useLayoutEffect(() => listenByEar(session), [session]);
  // The button that began the session is gone, and so the focus is lost.
  useEffect(() => frame.current?.focus({ preventScroll: true }), []);
  const asked = 'asked' in phase ? phase.asked : null;
  return (
    <main class="ear running" data-phase={phase.at} tabIndex={-1} ref={frame} aria-label="By ear">
      <EarBar session={session} paused={phase.at === 'paused'} leave={props.leave} />
      <div class="ear-ground">
        <Areas session={session} phase={phase} />
        <div class="ear-words" {...(session.aloud.value ? {} : { 'aria-live': 'polite' as const })}>
          {asked ? <Asked asked={asked} phase={phase} /> : <p class="ear-from">{CAUTION}</p>}
        </div>
        <div class="ear-foot">
          <p class="ear-problem" role="status">
            {session.problem.value}
          </p>
          <p>
            {CAUTION} {HALF_AS_FAR}
          </p>
        </div>
      </div>
    </main>
  );
}

function EarBar(props: {
  readonly session: EarSession;
  readonly paused: boolean;
  readonly leave: () => void;
}) {
  const { session, paused } = props;
  const { hadIt, not } = session.score.value;
  return (
    <div class="ear-bar">
      <button type="button" onMouseDown={keepFocus} onClick={props.leave}>
        Stop
      </button>
      <span>{hadIt + not === 0 ? '' : `${hadIt} got, ${not} missed`}</span>
      <button type="button" onMouseDown={keepFocus} onClick={session.again} disabled={paused}>
        Say it again
      </button>
      <button type="button" onMouseDown={keepFocus} onClick={session.pause}>
        {paused ? 'Continue' : 'Pause'}
      </button>
    </div>
  );
}

/**
 * Makes the whole screen pressable: as two halves for judging, otherwise as one area. The area that
 * moves forward stays the same button, so that it keeps the focus.
 */
function Areas({ session, phase }: { readonly session: EarSession; readonly phase: Running }) {
  return (
    <>
      {isJudgeable(phase) && (
        <Area key="not" label="Missed" side="not" onPress={() => void session.judge(false)} />
      )}
      <Area key="forward" {...forward(session, phase)} />
    </>
  );
}

function isJudgeable({ at }: Running): boolean {
  return at === 'telling' || at === 'judging' || at === 'saving';
}

function forward(session: EarSession, phase: Running): AreaProps {
  if (phase.at === 'paused') return { label: 'Continue', side: 'whole', onPress: session.pause };
  if (!isJudgeable(phase)) return { label: 'Skip ahead', side: 'whole', onPress: session.skip };
  return { label: 'Got it', side: 'had-it', onPress: () => void session.judge(true) };
}

interface AreaProps {
  readonly label: string;
  readonly side: 'not' | 'had-it' | 'whole';
  readonly onPress: () => void;
}

function Area(props: AreaProps) {
  return (
    <button
      type="button"
      class={`ear-area ${props.side}`}
      onMouseDown={keepFocus}
      onClick={props.onPress}
    >
      <span>{props.label}</span>
    </button>
  );
}

function Asked({ asked, phase }: { readonly asked: EarQuestion; readonly phase: Running }) {
  const { words } = asked;
  return (
    <>
      <h1>{words.pattern}</h1>
      <p class="ear-from">{words.from}</p>
      <p class="ear-asked">{words.asked}</p>
      <div class="ear-below">
        <Below asked={asked} phase={phase} />
      </div>
    </>
  );
}

function Below({ asked, phase }: { readonly asked: EarQuestion; readonly phase: Running }) {
  switch (phase.at) {
    case 'thinking':
      return <Ring seconds={phase.seconds} />;
    case 'telling':
    case 'judging':
    case 'saving':
      return asked.words.written.map((text) => (
        <p key={text} class={asked.words.written.length > 1 ? 'ear-movement' : 'ear-number'}>
          {text}
        </p>
      ));
    case 'paused':
      return <p class="ear-asked">{phase.cut ? 'Paused: the voice was cut off' : 'Paused'}</p>;
    default:
      return null;
  }
}

/**
 * Shows how much of the pause is left. If the player prefers reduced motion, it says the length of
 * the pause in words.
 */
function Ring({ seconds }: { readonly seconds: number }) {
  return (
    <>
      <svg class="ear-ring" viewBox="0 0 100 100" aria-hidden="true">
        <circle
          cx="50"
          cy="50"
          r="44"
          pathLength="1"
          style={{ animationDuration: `${seconds}s` }}
        />
      </svg>
      <p class="ear-still">{seconds} seconds to think</p>
    </>
  );
}
