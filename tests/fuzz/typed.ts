/** Typed text: answers, numbers, codes, addresses, the command line. */

import { parseOptions } from '../../bin/options.ts';
import { fileNameOf } from '../../src/app/device/file-name.ts';
import { readStart, readTyped, showTyped } from '../../src/app/edit/typed-number.ts';
import { calendarOf } from '../../src/app/memory/occasion/calendar.ts';
import { parseOccasion } from '../../src/app/memory/occasion/entry.ts';
import { formatScreen, parseScreen } from '../../src/app/router.ts';
import { cardsOf, type Question, questionOf } from '../../src/cards/index.ts';
import {
  computeChart,
  formatDecimal,
  HARBOUR_LANE,
  parseDecimal,
  patternOf,
  toDecimal,
} from '../../src/charts/index.ts';
import { formatDrill, parseDrill } from '../../src/quiz/drill/code.ts';
import { emptyEntry, numberIn, readEntry, typed } from '../../src/quiz/stage/entry.ts';
import { TABLES } from '../../src/table/index.ts';
import { eventsIn } from './calendar-reader.ts';
import { clean, same } from './laws.ts';
import { law, refusedWith, type Target } from './target.ts';

const NUMBERS = ['2.3', '2,3', '0', '8', '-0.4', '−0.4', '+.5', '3.125', '7.', ' 1.5 ', '1e1'];

const decimal: Target = {
  name: 'number',
  form: 'text',
  share: 10,
  seeds: NUMBERS,
  take: (text) => {
    const parsed = parseDecimal(text as string);
    if (!parsed.ok) return 'refused';
    law(Number.isSafeInteger(parsed.value) && !Object.is(parsed.value, -0), 'not a whole number');
    same(parseDecimal(formatDecimal(parsed.value, 0)), parsed, 'it is formatted as another number');
    return 'taken';
  },
};

const cell: Target = {
  name: 'number of a line, in both namings',
  form: 'text',
  share: 6,
  seeds: NUMBERS,
  take: (text) => {
    const pattern = patternOf('cross-side');
    const start = toDecimal(6);
    const read = (['through', 'opposite'] as const).map((naming) => {
      const named = { table: TABLES['9ft'], pattern, naming };
      const one = readTyped(text as string, start, named);
      if (!one.ok) law(one.say.length > 3, 'no reason is given');
      else if (one.number !== null) {
        const shown = readTyped(showTyped(one.number, start, named), start, named);
        law(shown.ok || shown.say === 'beyond the rail', 'the text shown is no number', shown);
      }
      return one.ok;
    });
    const begins = readStart(text as string, pattern);
    return read.includes(true) || begins.ok ? 'taken' : 'refused';
  },
};

const chart = computeChart(HARBOUR_LANE);
const asker = { chart, tolerance: toDecimal(0.1), speeds: ['medium'] as const };
/** One question of each kind. */
const QUESTIONS = [
  ...new Map(
    cardsOf(chart, asker.tolerance).flatMap((card) => {
      const question = questionOf(asker, card, 1);
      return question ? [[question.kind, question] as const] : [];
    }),
  ).values(),
] as readonly Question[];

/** Key by key, as from the pad or the keyboard, with the mark on the rail after each. */
const answer: Target = {
  name: 'answer',
  form: 'text',
  share: 5,
  seeds: [...NUMBERS, 'banks', 'thin', 'kick only'],
  take: (text) => {
    const taken = QUESTIONS.map((question) => {
      let entry = emptyEntry(question);
      for (const character of (text as string).slice(0, 20)) {
        entry = typed(entry, character);
        numberIn(question, entry, entry.field);
      }
      const whole = { ...entry, texts: entry.texts.map(() => text as string) };
      numberIn(question, whole, 0);
      const read = readEntry(question, whole);
      if (!read.ok && read.entry.problem !== null) refusedWith(read.entry.problem);
      return read.ok;
    });
    return taken.includes(true) ? 'taken' : 'refused';
  },
};

const drill: Target = {
  name: 'drill code',
  form: 'text',
  share: 14,
  seeds: ['1-abc-7ff-70f110-rs-abc123', '1-0-1-10100-2s-000000', '1-1z141z3-2z-73z301-1-zzzzzz'],
  take: (text) => {
    const parsed = parseDrill(text as string);
    if (!parsed.ok) return refusedWith(parsed.say);
    clean(parsed.spec);
    same(parseDrill(formatDrill(parsed.spec)), parsed, 'its code differs');
    return 'taken';
  },
};

const address: Target = {
  name: 'address',
  form: 'text',
  share: 14,
  seeds: [
    ...['#/', '#/quiz/10', '#/charts/cross-side/2.5', '#/drills/1-abc', '#/rehearsal/a:5/2'],
    ...[
      '#/print/cross-side',
      '#/revisions/1/2',
      '#/receive/1abc',
      '#/edit/cross-corner',
      '#/memory',
    ],
  ],
  take: (text) => {
    const screen = parseScreen(text as string);
    clean(screen);
    same(parseScreen(formatScreen(screen)), screen, 'its address leads elsewhere');
    return screen.name === 'today' ? 'refused' : 'taken';
  },
};

/** The day’s name becomes part of a calendar file and of the file’s name. */
const occasion: Target = {
  name: 'day that counts, and its calendar',
  form: 'value',
  share: 3,
  seeds: [
    { name: 'League final', date: '2026-12-24', minutes: '20' },
    { name: 'Ünïcode, with; marks\\', date: '2027-02-28', minutes: '180' },
  ],
  take: (data) => {
    const fields = Object(data) as Readonly<Record<string, unknown>>;
    const text = (key: string) => (typeof fields[key] === 'string' ? fields[key] : '');
    const name = text('name');
    const parsed = parseOccasion({ name, date: text('date'), minutes: text('minutes') }, 20_787);
    law(/^[a-z0-9]+(-[a-z0-9]+)*$/.test(fileNameOf(name)), 'not a plain file name');
    if (!parsed.ok) return 'refused';
    const { day, minutes } = parsed.occasion;
    const file = calendarOf({
      ...{ player: 'k3', name: parsed.occasion.name, day, minutes },
      ...{ first: 20_788, time: 1140, at: 1_796_000_000_000 },
    });
    const last = eventsIn(file).at(-1);
    law(last === plain(parsed.occasion.name), 'the calendar has another name', last);
    return 'taken';
  },
};

/** Without what RFC 5545 and UTF-8 cannot hold: control characters and lone surrogates. */
function plain(text: string): string {
  return text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll(/(?![\t\n])\p{Cc}/gu, '')
    .replaceAll(/\p{Cs}/gu, '\ufffd');
}

const command: Target = {
  name: 'command line and its --condition file',
  form: 'text',
  share: 3,
  seeds: [
    '--pattern cross-side --starts 5:8:0.5 --format csv',
    '--pattern cross-side --condition {"restitution":0.9,"speeds":{"soft":2.1}}',
    '--pattern cross-corner --speeds soft,3.3,firm --follow 0.2 --side -0.1 --along 0.5',
    '--list --format md',
    '-h',
    '--pattern up-and-back --target 2 --step 0.05 --tolerance 0.05 --naming opposite --table 7ft',
  ],
  take: (text) => {
    const argv = (text as string).split(' ').filter((word) => word !== '');
    const parsed = parseOptions(argv, (path) => ({ ok: true, value: path }));
    return parsed.ok ? 'taken' : refusedWith(parsed.say);
  },
};

export const TYPED: readonly Target[] = [decimal, cell, answer, drill, address, occasion, command];
