import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import {
  LEAST_MINUTES,
  LONGEST_OCCASION,
  MOST_MINUTES,
  type Occasion,
} from '../../../store/index.ts';
import { isoDay } from '../../parts/day-words.ts';
import { Problem, useSaving } from '../../parts/saving.tsx';
import { FARTHEST, type Faults, parseOccasion, type Typed } from './entry.ts';

/** How many minutes a day the form suggests. */
const USUAL_MINUTES = 10;

/** Asks for the occasion: its name, its date, and the minutes a day to spend on it. */
export function OccasionForm(props: {
  readonly occasion: Occasion | null;
  readonly today: number;
  readonly keep: (occasion: Occasion | null) => Promise<unknown>;
  /** Called after the occasion is stored or cleared, or the player cancels. */
  readonly onDone: () => void;
}) {
  const { occasion, today, keep, onDone } = props;
  const [faults, setFaults] = useState<Faults>({});
  const { problem, save } = useSaving();
  const form = useRef<HTMLFormElement>(null);
  // The key that opened the form is gone, so the first field takes the focus.
  useEffect(() => {
    if (occasion) form.current?.querySelector('input')?.focus();
  }, []);
  const keepIt = (wanted: Occasion | null): void => save(keep(wanted).then(onDone));
  const submit = (form: HTMLFormElement): void => {
    const parsed = parseOccasion(typedIn(form), today);
    setFaults(parsed.ok ? {} : parsed.faults);
    if (parsed.ok) keepIt(parsed.occasion);
    else focusFirst(form, parsed.faults);
  };
  return (
    // The form shows our own sentences instead of the browser's. Its fields keep what was typed.
    <form
      class="stack"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        submit(event.currentTarget);
      }}
    >
      <Fields occasion={occasion} today={today} faults={faults} />
      <FormKeys isSet={occasion !== null} clear={() => keepIt(null)} cancel={onDone} />
      <Problem say={problem} />
    </form>
  );
}

function FormKeys(props: {
  readonly isSet: boolean;
  readonly clear: () => void;
  readonly cancel: () => void;
}) {
  const { isSet, clear, cancel } = props;
  return (
    <div class="actions">
      <button type="submit" class="key call">
        {isSet ? 'Save the day' : 'Set the day'}
      </button>
      {isSet && (
        <>
          <button type="button" class="key" onClick={clear}>
            Clear it
          </button>
          <button type="button" class="plain" onClick={cancel}>
            Leave it as it is
          </button>
        </>
      )}
    </div>
  );
}

function Fields(props: {
  readonly occasion: Occasion | null;
  readonly today: number;
  readonly faults: Faults;
}) {
  const { occasion, today, faults } = props;
  return (
    <>
      <Field name="name" label="What it is called" fault={faults.name}>
        <input {...inputProps('name', faults)} type="text" defaultValue={occasion?.name ?? ''} />
      </Field>
      <Field name="date" label="Date" fault={faults.date}>
        <input
          {...inputProps('date', faults)}
          type="date"
          min={isoDay(today + 1)}
          max={isoDay(today + FARTHEST)}
          defaultValue={occasion ? isoDay(occasion.day) : ''}
        />
      </Field>
      <Field name="minutes" label="Minutes a day" fault={faults.minutes}>
        <input
          {...inputProps('minutes', faults)}
          type="number"
          inputMode="numeric"
          min={LEAST_MINUTES}
          max={MOST_MINUTES}
          defaultValue={occasion?.minutes ?? USUAL_MINUTES}
        />
      </Field>
    </>
  );
}

function Field(props: {
  readonly name: keyof Typed;
  readonly label: string;
  readonly fault: string | undefined;
  readonly children: ComponentChildren;
}) {
  return (
    <div class="field">
      <label for={`occasion-${props.name}`}>{props.label}</label>
      {props.children}
      <p class="problem" id={faultId(props.name)} role="alert">
        {props.fault}
      </p>
    </div>
  );
}

function inputProps(name: keyof Typed, faults: Faults) {
  const bound = name === 'name' ? { maxLength: LONGEST_OCCASION } : {};
  return {
    id: `occasion-${name}`,
    name,
    autocomplete: 'off',
    'aria-invalid': faults[name] !== undefined,
    'aria-describedby': faultId(name),
    ...bound,
  };
}

function faultId(name: keyof Typed): string {
  return `occasion-${name}-fault`;
}

function typedIn(form: HTMLFormElement): Typed {
  const data = new FormData(form);
  const text = (name: keyof Typed) => String(data.get(name) ?? '');
  return { name: text('name'), date: text('date'), minutes: text('minutes') };
}

/** Focuses the first field with a fault. */
function focusFirst(form: HTMLFormElement, faults: Faults): void {
  const [first] = Object.keys(faults);
  if (first) form.querySelector<HTMLInputElement>(`[name="${first}"]`)?.focus();
}
