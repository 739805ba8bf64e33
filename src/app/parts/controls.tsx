/** A list from which one option is chosen. */
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

/** A field in which one of several options is chosen, each drawn as a chip. */
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
