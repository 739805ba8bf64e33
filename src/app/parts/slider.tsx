/** A number set by sliding or by the arrow keys. */
export function Slider(props: {
  readonly label: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** The value in words, both shown and read out by screen readers. */
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
