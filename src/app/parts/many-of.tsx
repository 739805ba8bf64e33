import type { ComponentChildren } from 'preact';

/** A field in which any number of options can be chosen, each drawn as a chip. */
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
