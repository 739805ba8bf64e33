/** Controls that several screens share. */

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
