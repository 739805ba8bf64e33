/** Parses what the player types about the occasion. */

import {
  LEAST_MINUTES,
  LONGEST_OCCASION,
  MOST_MINUTES,
  type Occasion,
} from '../../../store/index.ts';
import { dayFromIso } from '../../parts/day-words.ts';

/** How many days ahead an occasion may be: two years. Memory cannot be forecast further. */
export const FARTHEST = 730;

/** The texts of the form's fields. */
export interface Typed {
  readonly name: string;
  readonly date: string;
  readonly minutes: string;
}

/** A sentence for each field that is not valid. */
export type Faults = Readonly<Partial<Record<keyof Typed, string>>>;

export type ParsedOccasion =
  | { readonly ok: true; readonly occasion: Occasion }
  | { readonly ok: false; readonly faults: Faults };

export function parseOccasion(typed: Typed, today: number): ParsedOccasion {
  const name = typed.name.trim();
  const day = dayFromIso(typed.date);
  const minutes = /^\d{1,4}$/.test(typed.minutes.trim()) ? Number(typed.minutes) : null;
  const faults = withoutNulls({
    name: nameFault(name),
    date: dayFault(day, today),
    minutes: minutesFault(minutes),
  });
  if (day === null || minutes === null || Object.keys(faults).length > 0) {
    return { ok: false, faults };
  }
  return { ok: true, occasion: { name, day, minutes } };
}

function withoutNulls(all: Readonly<Record<keyof Typed, string | null>>): Faults {
  return Object.fromEntries(Object.entries(all).filter(([, fault]) => fault !== null));
}

function nameFault(name: string): string | null {
  if (name === '') return 'Give it a name, so that Today can count the days to it.';
  return name.length > LONGEST_OCCASION
    ? `A name has at most ${LONGEST_OCCASION} characters.`
    : null;
}

function dayFault(day: number | null, today: number): string | null {
  if (day === null) return 'Give the date, with day, month and year.';
  if (day <= today) return 'The day must come after today.';
  return day - today > FARTHEST ? 'The day must come within two years.' : null;
}

function minutesFault(minutes: number | null): string | null {
  const fits = minutes !== null && minutes >= LEAST_MINUTES && minutes <= MOST_MINUTES;
  return fits ? null : `Give whole minutes, from ${LEAST_MINUTES} to ${MOST_MINUTES}.`;
}
