import type { ComponentChildren } from 'preact';

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
    <fieldset class="drill-chips">
      <legend>{props.legend}</legend>
      {all.map((one) => (
        <label key={one} class="drill-chip">
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
    <fieldset class="drill-chips">
      <legend>{props.legend}</legend>
      {props.options.map(([one, words]) => (
        <label key={words} class="drill-chip">
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
