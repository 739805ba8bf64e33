/** The app's own number pad. It is used because the device's keyboard would cover the table. */

import type { Answering } from './entry.ts';

export interface NumberPadProps {
  readonly signed: boolean;
  readonly submitLabel: string;
  readonly answering: Answering;
}

const ROWS = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
] as const;

export function NumberPad({ signed, submitLabel, answering }: NumberPadProps) {
  const { showMe } = answering;
  return (
    <fieldset class="pad" aria-label="Number pad" onMouseDown={keepFocus}>
      <div class="pad-digits">
        {ROWS.flat().map((digit) => (
          <PadKey key={digit} label={digit} onPress={() => answering.type(digit)} />
        ))}
        <PadKey label="." name="decimal point" onPress={() => answering.type('.')} />
        <PadKey label="0" onPress={() => answering.type('0')} />
        {signed ? (
          <PadKey label="+/−" name="change the sign" onPress={answering.flipSign} />
        ) : (
          <span />
        )}
      </div>
      <div class="pad-actions">
        <button type="button" class="key quiet" onClick={answering.erase}>
          Erase
        </button>
        {showMe && (
          <button type="button" class="key quiet" onClick={() => void showMe()}>
            Show me
          </button>
        )}
        <button type="button" class="key call" onClick={() => void answering.submit()}>
          {submitLabel}
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

/**
 * Keeps a pressed key of the pad from taking the focus. Otherwise Enter would press that key again
 * instead of submitting the answer.
 */
export function keepFocus(event: MouseEvent): void {
  event.preventDefault();
}
