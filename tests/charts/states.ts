/** Generators of chart states with few lines and few values, so that two of them often collide. */

import fc from 'fast-check';
import {
  type ChartDocument,
  type ChartState,
  type Decimal,
  inOrder,
  type Level,
  type PatternId,
  PRIORITIES,
  revise,
  toDecimal,
} from '../../src/charts/index.ts';
import { CLUB_CLOTH, SPEEDS } from '../../src/table/index.ts';

const PATTERNS: readonly PatternId[] = ['foot-to-side', 'cross-side', 'cross-corner'];
const STARTS = [1, 2, 3].map(toDecimal);
const PLACES = PATTERNS.slice(1).flatMap((pattern) => STARTS.map((start) => ({ pattern, start })));

const valueArb = fc.constantFrom(0.5, 1, 1.5).map(toDecimal);
const conditionArb = fc
  .record({
    restitution: fc.constantFrom(0.8, 0.85, 0.9),
    // Some mixtures of these do not rise.
    speeds: fc.constantFrom(
      { soft: 2, medium: 3, firm: 4 },
      { soft: 3.5, medium: 3.75, firm: 4 },
      { soft: 2, medium: 2.5, firm: 3 },
      { soft: 2, medium: 3, firm: 5 },
    ),
  })
  .map((part) => ({ ...CLUB_CLOTH, ...part }));
const levelArb = fc.constantFrom<Level>(0, 1, 2);

const linesOf = <T extends object>(entry: fc.Arbitrary<T>) =>
  fc
    .subarray(PLACES)
    .chain((places) =>
      fc.tuple(...places.map((place) => entry.map((one) => ({ ...place, ...one })))),
    );

const numbersArb = fc
  .record({ soft: valueArb, medium: valueArb, firm: valueArb }, { requiredKeys: [] })
  .filter((line) => SPEEDS.some((speed) => line[speed] !== undefined));

const namesArb = fc
  .shuffledSubarray(['Corner', 'Rail', 'Room', 'House'], { minLength: 3, maxLength: 3 })
  .map(([a = '', b = '', c = '']) => [a, b, c] as const);

const partsArb: { [K in keyof ChartState]: fc.Arbitrary<ChartState[K]> } = {
  condition: conditionArb,
  patterns: fc.subarray([...PATTERNS]),
  measured: linesOf(numbersArb),
  priorities: fc
    .tuple(
      linesOf(fc.record({ priority: fc.constantFrom(...PRIORITIES) })),
      fc.option(fc.constantFrom(...PRIORITIES)),
    )
    .map(([lines, whole]) => [
      ...lines,
      ...(whole ? [{ pattern: 'cross-side' as const, start: null, priority: whole }] : []),
    ]),
  remarks: linesOf(fc.record({ text: fc.constantFrom('Short on table 3.', 'Aim a touch full.') })),
  levels: fc.option(fc.record({ names: namesArb, lines: linesOf(fc.record({ level: levelArb })) })),
};

export const stateArb: fc.Arbitrary<ChartState> = fc.record(partsArb).map(inOrder);

/** New values for some parts of a state. */
export const editArb: fc.Arbitrary<Partial<ChartState>> = fc
  .record(partsArb, { requiredKeys: [] })
  .map((edit) => edit as Partial<ChartState>);

export function documentOf(state: ChartState): ChartDocument {
  return {
    kind: 'throughline-chart',
    version: 2,
    id: 'quay-street',
    name: 'Quay Street, table 3',
    table: '9ft',
    startStep: toDecimal(0.5),
    printStep: toDecimal(0.1),
    basis: 'computed',
    earlier: [],
    revisions: [
      { number: 1, date: '2026-11-01', author: 'Quay Street', why: 'First chart.', ...state },
    ],
  };
}

/** Continues a chart by one revision for each edit, each with a reason of its own. */
export function continued(
  from: ChartDocument,
  edits: readonly Partial<ChartState>[],
  author: string,
): ChartDocument {
  return edits.reduce<ChartDocument>((document, edit, n) => {
    const last = document.revisions.at(-1);
    if (!last) throw new Error('a chart without a revision');
    const why = `Edit ${n + 1} after ${document.revisions.length}.`;
    return revise(document, { ...last, ...edit }, { date: '2026-11-08', author, why });
  }, from);
}

export interface Diverged {
  readonly base: ChartDocument;
  readonly mine: ChartDocument;
  readonly theirs: ChartDocument;
}

/** A chart that two people changed independently. */
export function divergedArb(least: { readonly mine: number; readonly theirs: number }) {
  const edits = (minLength: number) => fc.array(editArb, { minLength, maxLength: 2 });
  return fc
    .tuple(stateArb, fc.array(editArb, { maxLength: 2 }), edits(least.mine), edits(least.theirs))
    .map(([state, shared, own, others]): Diverged => {
      const base = continued(documentOf(state), shared, 'Quay Street');
      return {
        base,
        mine: continued(base, own, 'Mine'),
        theirs: continued(base, others, 'Theirs'),
      };
    });
}

const oneEditArb = fc
  .constantFrom(...(Object.keys(partsArb) as (keyof ChartState)[]))
  .chain((part) => fc.record({ [part]: partsArb[part] }) as fc.Arbitrary<Partial<ChartState>>);

/** Each changed one part of the state, seldom the same. */
export const divergedByOneArb = fc
  .tuple(stateArb, oneEditArb, oneEditArb)
  .map(([state, own, other]): Diverged => {
    const base = documentOf(state);
    return {
      base,
      mine: continued(base, [own], 'Mine'),
      theirs: continued(base, [other], 'Theirs'),
    };
  });

/**
 * A state as flat text, to check the laws without the program's own cells. Absent and empty are the
 * same.
 */
export function flat(state: ChartState): ReadonlyMap<string, string> {
  const entries: [string, string | number | undefined][] = [];
  const { speeds, ...fields } = state.condition;
  for (const [field, value] of Object.entries({ ...fields, ...speeds }))
    entries.push([`condition ${field}`, value]);
  for (const id of state.patterns) entries.push([`pattern ${id}`, 'in']);
  for (const line of state.measured)
    for (const speed of SPEEDS) entries.push([`${at('number', line)} ${speed}`, line[speed]]);
  for (const entry of state.priorities) entries.push([at('priority', entry), entry.priority]);
  for (const entry of state.remarks) entries.push([at('remark', entry), entry.text]);
  for (const entry of state.levels?.lines ?? []) entries.push([at('level', entry), entry.level]);
  state.levels?.names.forEach((name, n) => {
    entries.push([`level name ${n}`, name]);
  });
  return new Map(
    entries.flatMap(([key, value]) => (value === undefined ? [] : [[key, `${value}`]])),
  );
}

function at(what: string, { pattern, start }: { pattern: PatternId; start: Decimal | null }) {
  return `${what} ${pattern} ${start}`;
}

/** The keys at which two states differ. */
export function differingKeys(a: ChartState, b: ChartState): readonly string[] {
  const [one, other] = [flat(a), flat(b)];
  return [...new Set([...one.keys(), ...other.keys()])]
    .filter((key) => one.get(key) !== other.get(key))
    .sort();
}
