import type { FoundPath } from '../../cards/index.ts';
import { toDecimal } from '../../charts/index.ts';
import {
  type End,
  NO_SHOT,
  nudge,
  numberOn,
  placeWords,
  railWords,
  type Shot,
} from '../parts/shot.ts';
import { countOfEnd } from './words.ts';

const TENTH = toDecimal(0.1);
const NAMES = { start: 'Start', target: 'Target' } as const;

interface ShotProps {
  readonly shot: Shot;
  /** The path that is drawn. It may count a rail from the other end. */
  readonly path: FoundPath | null;
  readonly change: (shot: Shot) => void;
}

/**
 * Shows the start and the target in words. Each can be set again, or moved by a tenth of a diamond.
 */
export function ShotEnds(props: ShotProps) {
  const { shot, change } = props;
  return (
    <div class="shot-ends">
      <EndBox end="start" {...props} />
      <EndBox end="target" {...props} />
      {(shot.start || shot.target) && (
        <button type="button" class="key quiet" onClick={() => change(NO_SHOT)}>
          New shot
        </button>
      )}
    </div>
  );
}

/** Says what the next tap does. */
export function Hint({ shot: { start, target, next } }: { readonly shot: Shot }) {
  const whole = start && target;
  const second = whole
    ? 'Tap another target, or a box to change it.'
    : 'Tap the target: a pocket or a point of a rail.';
  return (
    <p class="soft-words hint" role="status">
      {next === 'start' ? 'Tap the start on a rail.' : second}
    </p>
  );
}

interface EndProps extends ShotProps {
  readonly end: End;
}

function EndBox(props: EndProps) {
  const { end, shot, change } = props;
  const isOnRail = shot[end]?.kind === 'rail';
  const move = (tenths: 1 | -1): void => {
    change(nudge(shot, end, (tenths * TENTH) as typeof TENTH));
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: two buttons and a number are no fieldset
    <div
      class={`end-box ${shot.next === end ? 'next' : ''}`}
      role="group"
      aria-label={NAMES[end]}
      onKeyDown={(event) => {
        const by = isOnRail ? keyedBy(event.key) : null;
        if (by === null || event.ctrlKey || event.metaKey || event.altKey) return;
        event.preventDefault();
        move(by);
      }}
    >
      <EndName {...props} />
      {isOnRail && <Nudges name={NAMES[end]} move={move} />}
    </div>
  );
}

function EndName({ end, shot, path, change }: EndProps) {
  const place = shot[end];
  return (
    <button
      type="button"
      class="end-name"
      aria-pressed={shot.next === end}
      onClick={() => change({ ...shot, next: end })}
    >
      <span class="fact-label">{NAMES[end]}</span>
      {place?.kind === 'rail' ? (
        <>
          <strong>{numberOn(place)}</strong>
          <span class="soft-words">{railWords(place, path && countOfEnd(path, end))}</span>
        </>
      ) : (
        <strong class="words">{place ? placeWords(place) : '–'}</strong>
      )}
    </button>
  );
}

function Nudges(props: { readonly name: string; readonly move: (tenths: 1 | -1) => void }) {
  const { name, move } = props;
  return (
    <div class="nudges">
      <button type="button" class="key" aria-label={`${name} 0.1 less`} onClick={() => move(-1)}>
        −
      </button>
      <button type="button" class="key" aria-label={`${name} 0.1 more`} onClick={() => move(1)}>
        +
      </button>
    </div>
  );
}

/**
 * Returns the direction in which a key moves an end of the shot: arrow keys, + and −. Null for
 * other keys.
 */
function keyedBy(key: string): 1 | -1 | null {
  if (key === 'ArrowUp' || key === 'ArrowRight' || key === '+') return 1;
  if (key === 'ArrowDown' || key === 'ArrowLeft' || key === '-') return -1;
  return null;
}
