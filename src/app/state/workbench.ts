/**
 * Lets the player try out a table: shows a pattern's numbers on any table, in any condition, with any
 * stroke. This has no effect on the chart or on memory. The solver runs in a worker. The screen shows
 * the newest answer together with its request, so that the numbers fit the drawn paths.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import {
  anchorBound,
  type Chart,
  type Decimal,
  givenLines,
  kickTo,
  type Pattern,
  type PatternId,
  patternOf,
  type Sheet,
  type SheetRequest,
  sheetStarts,
} from '../../charts/index.ts';
import {
  type Condition,
  type PocketSize,
  type Stroke,
  TABLES,
  type TableSize,
  withPockets,
} from '../../table/index.ts';
import type { Solver } from '../../workers/index.ts';

export interface Tried {
  readonly table: TableSize;
  readonly pockets: PocketSize;
  readonly condition: Condition;
  readonly stroke: Stroke;
  /** The pattern's own pocket, or a diamond on the rail that it kicks to. */
  readonly target: 'pocket' | number;
  /** A second table to compare with, in the same condition; null for none. */
  readonly against: TableSize | null;
}

/** A sheet, and the request that it answers. */
export interface SolvedSheet {
  readonly pattern: PatternId;
  readonly request: SheetRequest;
  readonly sheet: Sheet;
}

export interface Workbench {
  readonly tried: ReadonlySignal<Tried>;
  /** Whether anything except the comparison differs from the chart's own table and stroke. */
  readonly changed: ReadonlySignal<boolean>;
  readonly here: ReadonlySignal<SolvedSheet | null>;
  readonly there: ReadonlySignal<SolvedSheet | null>;
  readonly problem: ReadonlySignal<string | null>;
  /** Shows a pattern with its own stroke and pocket, on the table being tried. */
  readonly show: (chart: Chart, pattern: PatternId, tolerance: Decimal) => void;
  readonly change: (part: Partial<Tried>) => void;
  /** Returns to the chart's own table. */
  readonly reset: () => void;
}

interface Subject {
  readonly chart: Chart;
  readonly pattern: Pattern & { readonly id: PatternId };
  readonly tolerance: Decimal;
}

/**
 * Returns the page's only workbench. The table being tried out stays while the player goes from pattern
 * to pattern.
 */
export function workbenchIn(
  workspace: { workbench: Workbench | null },
  solver: Solver,
  first: Chart,
): Workbench {
  workspace.workbench ??= createWorkbench(solver, first);
  return workspace.workbench;
}

export function createWorkbench(solver: Solver, first: Chart): Workbench {
  const tried = signal<Tried>(ownTable(first, {}));
  const own = signal<Tried>(tried.peek());
  const { solve, clear, ...solved } = createSolving(solver);
  let subject: Subject | null = null;
  const resolve = (): void => {
    if (subject) solve(subject, tried.peek(), own.peek());
  };
  const show = (chart: Chart, id: PatternId, tolerance: Decimal): void => {
    const pattern = { ...patternOf(id), id };
    const isSamePattern = subject?.pattern.id === id;
    subject = { chart, pattern, tolerance };
    own.value = ownTable(chart, pattern.stroke ?? {});
    if (!isSamePattern) {
      clear();
      const { stroke, target } = own.peek();
      tried.value = { ...tried.peek(), stroke, target };
    }
    resolve();
  };
  return {
    tried,
    changed: computed(() => !isSame(tried.value, own.value)),
    ...solved,
    show,
    change: (part) => {
      tried.value = { ...tried.peek(), ...part };
      resolve();
    },
    reset: () => {
      tried.value = { ...own.peek(), against: tried.peek().against };
      resolve();
    },
  };
}

interface Solving extends Pick<Workbench, 'here' | 'there' | 'problem'> {
  readonly solve: (subject: Subject, tried: Tried, own: Tried) => void;
  /** Removes the sheets of the previous pattern. */
  readonly clear: () => void;
}

function createSolving(solver: Solver): Solving {
  const here = signal<SolvedSheet | null>(null);
  const there = signal<SolvedSheet | null>(null);
  const problem = signal<string | null>(null);
  let latest: Subject | null = null;
  return {
    here,
    there,
    problem,
    clear: () => {
      here.value = null;
      there.value = null;
    },
    solve: (subject, tried, own) => {
      latest = subject;
      const requests = requestsFor(subject, tried, own);
      solver.ask(requests, (solved) => {
        if (subject !== latest) return;
        problem.value = solved.ok ? null : solved.say;
        if (!solved.ok) return;
        const [mine, other] = requests.map((request, n) => ({ request, sheet: solved.answer[n] }));
        here.value = sheetFor(subject, mine);
        there.value = sheetFor(subject, other);
      });
    },
  };
}

function ownTable({ document, setting }: Chart, stroke: Stroke): Tried {
  return {
    table: document.table,
    pockets: 'standard',
    condition: setting.condition,
    stroke,
    target: 'pocket',
    against: null,
  };
}

/**
 * Returns the requests to the solver. The chart's own table shows the chart's own numbers. On any other
 * table, all numbers are solved.
 */
function requestsFor(subject: Subject, tried: Tried, own: Tried): readonly SheetRequest[] {
  const { chart, pattern } = subject;
  const here = requestFor(subject, tried, tried.table);
  const mine = isSame(tried, own) ? { ...here, given: givenLines(chart, pattern.id) } : here;
  return tried.against === null ? [mine] : [mine, requestFor(subject, tried, tried.against)];
}

/** Returns whether everything except the comparison is the same. */
function isSame({ against: _, ...one }: Tried, { against: __, ...other }: Tried): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function requestFor(
  { chart, pattern, tolerance }: Subject,
  tried: Tried,
  size: TableSize,
): SheetRequest {
  const { document, naming } = chart;
  const { condition, stroke, target } = tried;
  return {
    setting: { table: withPockets(TABLES[size], tried.pockets), condition },
    route: target === 'pocket' ? pattern : kickTo(pattern, target),
    starts: sheetStarts(chart, pattern.id),
    printStep: document.printStep,
    naming,
    stroke,
    anchorBound: anchorBound(tolerance),
  };
}

function sheetFor(
  { pattern }: Subject,
  one: { readonly request: SheetRequest; readonly sheet: Sheet | undefined } | undefined,
): SolvedSheet | null {
  return one?.sheet ? { pattern: pattern.id, request: one.request, sheet: one.sheet } : null;
}
