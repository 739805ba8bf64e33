/** Our own number pad: the device's keyboard would cover the table. */

export interface NumberPadProps {
  readonly signed: boolean;
  readonly submitLabel: string;
  readonly onType: (character: string) => void;
  readonly onErase: () => void;
  readonly onFlipSign: () => void;
  readonly onSubmit: () => void;
  readonly onShowMe: () => void;
}

const ROWS = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
] as const;

export function NumberPad(props: NumberPadProps) {
  return (
    <fieldset class="pad" aria-label="Number pad" onMouseDown={keepFocus}>
      <div class="pad-digits">
        {ROWS.flat().map((digit) => (
          <PadKey key={digit} label={digit} onPress={() => props.onType(digit)} />
        ))}
        <PadKey label="." name="decimal point" onPress={() => props.onType('.')} />
        <PadKey label="0" onPress={() => props.onType('0')} />
        {props.signed ? (
          <PadKey label="+/−" name="change the sign" onPress={props.onFlipSign} />
        ) : (
          <span />
        )}
      </div>
      <div class="pad-actions">
        <button type="button" class="key quiet" onClick={props.onErase}>
          Erase
        </button>
        <button type="button" class="key quiet" onClick={props.onShowMe}>
          Show me
        </button>
        <button type="button" class="key call" onClick={props.onSubmit}>
          {props.submitLabel}
        </button>
      </div>
    </fieldset>
  );
}

function PadKey(props: {
  readonly label: string;
  readonly name?: string;
  readonly onPress: () => void;
}) {
  return (
    <button
      type="button"
      class="key digit"
      aria-label={props.name ?? props.label}
      onClick={props.onPress}
    >
      {props.label}
    </button>
  );
}

/** A pressed key must not take the focus, or Enter would press it again instead of answering. */
export function keepFocus(event: MouseEvent): void {
  event.preventDefault();
}
