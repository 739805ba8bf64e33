/** Controls that several screens share. */

import type { ComponentChildren } from 'preact';

export function Choice<T extends string | number | null>(props: {
  readonly label: string;
  readonly note?: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChoose: (value: T) => void;
}) {
  const { label, note, value, options, onChoose } = props;
  return (
    <label class="choice">
      <span class="choice-label">{label}</span>
      <select
        value={String(options.findIndex(([option]) => option === value))}
        onChange={(event) => {
          const chosen = options[Number(event.currentTarget.value)];
          if (chosen) onChoose(chosen[0]);
        }}
      >
        {options.map(([option, text], index) => (
          <option key={option} value={String(index)}>
            {text}
          </option>
        ))}
      </select>
      {note && <span class="soft-words">{note}</span>}
    </label>
  );
}

/** A number set by sliding; arrow keys step it. */
export function Slider(props: {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** The value in words, as shown and as spoken. */
  readonly words: string;
  readonly onSlide: (value: number) => void;
}) {
  const { label, value, min, max, step, words, onSlide } = props;
  return (
    <label class="slider">
      <span class="slider-words">
        <span>{label}</span>
        <output>{words}</output>
      </span>
      <input
        type="range"
        min={min}
        max={max}
        step={step}
        value={value}
        aria-label={label}
        aria-valuetext={words}
        onInput={(event) => onSlide(Number(event.currentTarget.value))}
      />
    </label>
  );
}

/** Some of several, or all of them. */
export function ManyOf<T extends string>(props: {
  readonly legend: string;
  readonly all: readonly T[];
  readonly chosen: readonly T[];
  readonly words: (one: T) => string;
  readonly onChoose: (chosen: readonly T[]) => void;
  readonly children?: ComponentChildren;
}) {
  const { all, chosen, onChoose } = props;
  const toggled = (one: T, on: boolean) =>
    all.filter((each) => (each === one ? on : chosen.includes(each)));
  return (
    <fieldset class="chips">
      <legend>{props.legend}</legend>
      {all.map((one) => (
        <label key={one} class="chip">
          <input
            type="checkbox"
            checked={chosen.includes(one)}
            onChange={(event) => onChoose(toggled(one, event.currentTarget.checked))}
          />
          <span>{props.words(one)}</span>
        </label>
      ))}
      {props.children}
    </fieldset>
  );
}

/** One of several. */
export function OneOf<T extends string | number | boolean | null>(props: {
  readonly legend: string;
  readonly name: string;
  readonly options: readonly (readonly [T, string])[];
  readonly chosen: T;
  readonly onChoose: (one: T) => void;
}) {
  return (
    <fieldset class="chips">
      <legend>{props.legend}</legend>
      {props.options.map(([one, words]) => (
        <label key={words} class="chip">
          <input
            type="radio"
            name={props.name}
            checked={props.chosen === one}
            onChange={() => props.onChoose(one)}
          />
          <span>{words}</span>
        </label>
      ))}
    </fieldset>
  );
}
