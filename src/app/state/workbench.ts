/**
 * Trying a table out: a pattern's numbers on any table, in any condition, struck in any way. Nothing
 * of it changes the chart or the memory. The solver works beside the page; what is shown is the
 * newest answer, with the request it answers, so that numbers and drawn paths belong together.
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
  /** The pattern's pocket, or a point of the rail that it kicks to. */
  readonly target: 'pocket' | number;
  /** Another table to compare with, in the same condition. */
  readonly against: TableSize | null;
}

/** A sheet and what it was asked for. */
export interface Worked {
  readonly pattern: PatternId;
  readonly request: SheetRequest;
  readonly sheet: Sheet;
}

export interface Workbench {
  readonly tried: ReadonlySignal<Tried>;
  /** Is anything but the comparison different from the chart's own table and stroke. */
  readonly changed: ReadonlySignal<boolean>;
  readonly here: ReadonlySignal<Worked | null>;
  readonly there: ReadonlySignal<Worked | null>;
  readonly problem: ReadonlySignal<string | null>;
  /** Turns to a pattern: its own stroke and pocket, on the table that is being tried. */
  readonly show: (chart: Chart, pattern: PatternId, tolerance: Decimal) => void;
  readonly change: (part: Partial<Tried>) => void;
  /** Back to the chart's own table. */
  readonly reset: () => void;
}

interface Subject {
  readonly chart: Chart;
  readonly pattern: Pattern & { readonly id: PatternId };
  readonly tolerance: Decimal;
}

/** The page's one workbench: a table being tried out stays while the player turns the patterns' pages. */
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
  const here = signal<Worked | null>(null);
  const there = signal<Worked | null>(null);
  const problem = signal<string | null>(null);
  let subject: Subject | null = null;

  const solve = (): void => {
    if (!subject) return;
    const asked = subject;
    const requests = requestsFor(asked, tried.peek(), own.peek());
    solver.ask(requests, (solved) => {
      if (asked !== subject) return;
      if (!solved.ok) {
        problem.value = solved.say;
        return;
      }
      const [mine, other] = requests.map((request, n) => ({ request, sheet: solved.answer[n] }));
      problem.value = null;
      here.value = workedOut(asked, mine);
      there.value = workedOut(asked, other);
    });
  };

  const show = (chart: Chart, id: PatternId, tolerance: Decimal): void => {
    const pattern = { ...patternOf(id), id };
    const same = subject?.pattern.id === id;
    subject = { chart, pattern, tolerance };
    own.value = ownTable(chart, pattern.stroke ?? {});
    if (!same) {
      here.value = null;
      there.value = null;
      const { stroke, target } = own.peek();
      tried.value = { ...tried.peek(), stroke, target };
    }
    solve();
  };

  return {
    tried,
    changed: computed(() => !isSame(tried.value, own.value)),
    here,
    there,
    problem,
    show,
    change: (part) => {
      tried.value = { ...tried.peek(), ...part };
      solve();
    },
    reset: () => {
      tried.value = { ...own.peek(), against: tried.peek().against };
      solve();
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

/** The chart's own table shows the chart's own numbers; any other table's are all solved. */
function requestsFor(subject: Subject, tried: Tried, own: Tried): readonly SheetRequest[] {
  const { chart, pattern } = subject;
  const here = requestFor(subject, tried, tried.table);
  const mine = isSame(tried, own) ? { ...here, given: givenLines(chart, pattern.id) } : here;
  return tried.against === null ? [mine] : [mine, requestFor(subject, tried, tried.against)];
}

/** Is all the same but the comparison. */
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

function workedOut(
  { pattern }: Subject,
  one: { readonly request: SheetRequest; readonly sheet: Sheet | undefined } | undefined,
): Worked | null {
  return one?.sheet ? { pattern: pattern.id, request: one.request, sheet: one.sheet } : null;
}
