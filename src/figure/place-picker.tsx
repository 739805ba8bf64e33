import { useState } from 'preact/hooks';
import { type Count, RAILS, type Rail } from '../table/index.ts';
import { BareTable } from './bare-table.tsx';
import type { FigureAim, FigureMark, FigurePath } from './drawn.ts';
import { countOf, type Frame, pathData, type Spot, tidy, viewBox } from './frame.ts';
import { AimLine, CountLabels, Mark, PointedMark, TargetRing } from './marks.tsx';
import { type Place, type PocketTarget, placeAt, pocketTargets } from './place.ts';
import { formatStep, RailKeys, RailReadout, type RailScale, railScale } from './rail-slider.tsx';
import { Silent } from './silent.tsx';
import { usePointers } from './slider.ts';

export interface PlacePickerProps {
  readonly frame: Frame;
  /** Points of rails are whole multiples of this, in diamonds. */
  readonly step: number;
  /** What the player has picked. A start gets a mark, a target gets a ring. */
  readonly places: readonly { readonly as: 'start' | 'target'; readonly place: Place }[];
  /** What the player should pick, in words for screen readers. */
  readonly label: string;
  /** The rails with numbered diamonds, counted from the table's foot or left. */
  readonly rails: readonly Rail[];
  /** Returns a place in words. */
  readonly nameOf: (place: Place) => string;
  /** Returns a rail in words, as the picture shows it. */
  readonly railName: (rail: Rail) => string;
  readonly onPick: (place: Place) => void;
  /** A line drawn on the table while the player picks. */
  readonly line?: PickerLine;
}

/** A line from the picked start, drawn as the picture shows it. */
export interface PickerLine {
  readonly paths: readonly FigurePath[];
  readonly aims: readonly FigureAim[];
  /**
   * The marks of its numbers. A number that counts from the opposite end of the rail's diamonds
   * gets no label.
   */
  readonly marks: readonly FigureMark[];
}

/** A point of a rail that a finger or the keys point at, but that is not picked yet. */
interface Proposed {
  readonly count: Count;
  readonly diamond: number;
}

/** Draws a table on which a tap picks a pocket or a point of a rail. */
export function PlacePicker(props: PlacePickerProps) {
  const { frame, step } = props;
  const { proposed, propose, pick, finger, pointers } = usePicking(props);
  const box = viewBox(frame, props.rails.map(countOf));
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      class="table-figure place-picker"
      viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
      role="group"
      aria-label={props.label}
    >
      <Silent>
        <Picked {...props} proposed={proposed} />
      </Silent>
      <g {...pointers}>
        {RAILS.map((rail) => (
          <RailOf key={rail} {...props} rail={rail} now={proposed} propose={propose} pick={pick} />
        ))}
        {pocketTargets(frame).map((target) => (
          <PocketButton key={target.pocket} nameOf={props.nameOf} target={target} pick={pick} />
        ))}
      </g>
      {finger && proposed && (
        <RailReadout
          {...{ frame, box, step, finger }}
          count={proposed.count}
          value={proposed.diamond}
        />
      )}
    </svg>
  );
}

/**
 * Lets the player pick. A finger or the arrow keys propose a point; lifting the finger, or Enter,
 * picks it.
 */
function usePicking({ frame, step, onPick }: PlacePickerProps) {
  const [proposed, propose] = useState<Proposed | null>(null);
  const pick = (place: Place): void => {
    propose(null);
    onPick(place);
  };
  const dragging = usePointers({
    scaleAt: (at) => scaleAt(frame, at, step),
    value: null,
    onPoint: (diamond, { count }) => propose({ count, diamond }),
    onRelease: (diamond, { count }) => pick({ kind: 'rail', count, diamond }),
    onCancel: () => propose(null),
  });
  return { ...dragging, proposed, propose, pick };
}

/**
 * Returns the scale of the rail under a finger; null for a pocket, which is a button with its own
 * click.
 */
function scaleAt(frame: Frame, at: Spot, step: number): RailScale | null {
  const place = placeAt(frame, at, step);
  return place?.kind === 'rail' ? railScale(frame, place.count, step) : null;
}

function Picked(props: PlacePickerProps & { readonly proposed: Proposed | null }) {
  const { frame, step, proposed } = props;
  // The line belongs to the last shot that was picked, not to the point under the finger.
  const line = proposed ? undefined : props.line;
  const starts = props.places.flatMap(({ as, place }) =>
    as === 'start' && place.kind === 'rail' ? [markOf('start', place, step)] : [],
  );
  const mark = proposed && markOf('yours', proposed, step);
  const drawn = [...starts, ...(line?.marks ?? []).map(inOwnCount)];
  const marks = mark ? [...drawn, mark] : drawn;
  return (
    <>
      <BareTable frame={frame} />
      {props.rails.map(countOf).map((count) => (
        <CountLabels key={count.rail} frame={frame} count={count} marks={marks} />
      ))}
      {line && <LineDrawn frame={frame} line={line} />}
      {props.places
        .filter(({ as, place }) => as === 'target' || place.kind === 'pocket')
        .map(({ as, place }) => (
          <TargetRing key={as} frame={frame} target={place} />
        ))}
      {drawn.map((one) => (
        <Mark key={`${one.tone}${one.diamond}`} frame={frame} mark={one} marks={marks} />
      ))}
      {mark && <PointedMark frame={frame} mark={mark} marks={marks} />}
    </>
  );
}

/**
 * Removes the label of a number that is counted from the opposite end of the rail's printed
 * diamonds, because it would be misread.
 */
function inOwnCount(mark: FigureMark): FigureMark {
  if (mark.count.from === countOf(mark.count.rail).from) return mark;
  const { label: _, ...dot } = mark;
  return dot;
}

function LineDrawn({ frame, line }: { readonly frame: Frame; readonly line: PickerLine }) {
  return (
    <>
      {line.aims.map((aim) => (
        <AimLine key={aim.tone} frame={frame} aim={aim} />
      ))}
      {line.paths.map((path) => (
        <path key={path.tone} class={`path ${path.tone}`} d={pathData(frame, path.stretches)} />
      ))}
    </>
  );
}

function markOf(tone: 'start' | 'yours', { count, diamond }: Proposed, step: number): FigureMark {
  return { tone, count, diamond, label: formatStep(diamond, step) };
}

/** Makes a rail usable by keyboard: the arrow keys propose a point, Enter picks it. */
function RailOf(
  props: PlacePickerProps & {
    readonly rail: Rail;
    readonly now: Proposed | null;
    readonly propose: (proposed: Proposed) => void;
    readonly pick: (place: Place) => void;
  },
) {
  const { rail, now, step } = props;
  const count = countOf(rail);
  const value = now?.count.rail === rail ? now.diamond : null;
  return (
    <RailKeys
      frame={props.frame}
      count={count}
      value={value}
      step={step}
      label={props.railName(rail)}
      words={(diamond) =>
        diamond === null ? 'no point yet' : props.nameOf({ kind: 'rail', count, diamond })
      }
      onPoint={(diamond) => props.propose({ count, diamond })}
      onDone={() => {
        if (value !== null) props.pick({ kind: 'rail', count, diamond: value });
      }}
    />
  );
}

function PocketButton(props: {
  readonly nameOf: (place: Place) => string;
  readonly target: PocketTarget;
  readonly pick: (place: Place) => void;
}) {
  const { pocket, at, r } = props.target;
  const place: Place = { kind: 'pocket', pocket };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    event.stopPropagation();
    if (!event.repeat) props.pick(place);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot be part of a drawing
    <g
      class="pocket"
      role="button"
      tabindex={0}
      aria-label={props.nameOf(place)}
      onClick={() => props.pick(place)}
      onKeyDown={onKeyDown}
    >
      <circle class="reach" cx={tidy(at.x)} cy={tidy(at.y)} r={r} />
      <g class="focus-ring">
        <circle class="edge" cx={tidy(at.x)} cy={tidy(at.y)} r={r} />
        <circle cx={tidy(at.x)} cy={tidy(at.y)} r={r} />
      </g>
    </g>
  );
}
