/**
 * Placement of one pattern: which line is asked next, and what the answers prove. Pure. Lines are
 * positions in the pattern, by ascending start. The anchors are asked, for the others follow from
 * them; when all are right, one of the others is asked to check that they do.
 */

/**
 * `new`: never shown, may be asked. `known`: right when it was last asked; not asked, and as good as
 * proven. `apart`: set aside, or met and not yet held; neither asked nor taken for proven.
 */
export type Standing = 'new' | 'known' | 'apart';

export interface PlacementAnswer {
  readonly line: number;
  readonly right: boolean;
}

export interface PlacementPlan {
  /** The line to ask; null when the pattern is finished. */
  readonly next: number | null;
  /** Asked and right, ascending. */
  readonly proven: readonly number[];
  /** Not asked: they lie between anchors that are proven. What is in here once stays. */
  readonly implied: readonly number[];
  /** New lines that are neither, ascending. */
  readonly left: readonly number[];
  /** How many more may be asked at most. */
  readonly most: number;
}

/** Two neighbouring anchors, and the new lines between them. */
interface Span {
  readonly ends: readonly [number, number];
  readonly between: readonly number[];
}

/** So many more misses than hits end a pattern; it is ours: common practice, no source. */
export const ENOUGH_MISSES = 2;

/**
 * @param anchors positions of the pattern's anchors, ascending
 * @param answers in any order, each line once
 * @throws if an anchor or an answer is of no line, or a line was answered that was not to be asked
 */
export function placementPlan(
  lines: readonly Standing[],
  anchors: readonly number[],
  answers: readonly PlacementAnswer[],
): PlacementPlan {
  check(lines, anchors, answers);
  const given = new Map(answers.map(({ line, right }) => [line, right]));
  const proven = lines.flatMap((_, line) => (given.get(line) === true ? [line] : []));
  const implied = impliedLines(lines, anchors, given);
  const settled = new Set([...proven, ...implied]);
  const asked = toAsk(lines, anchors, given);
  return {
    next: asked[0] ?? null,
    proven,
    implied,
    left: lines.flatMap((standing, line) =>
      standing === 'new' && !settled.has(line) ? [line] : [],
    ),
    most: asked.length,
  };
}

/** What is still to be asked if every answer from here on is right. */
function toAsk(
  lines: readonly Standing[],
  anchors: readonly number[],
  given: ReadonlyMap<number, boolean>,
): readonly number[] {
  const hits = [...given.values()].filter(Boolean).length;
  const misses = given.size - hits;
  if (misses >= hits + ENOUGH_MISSES) return [];
  const order = fromMiddle(anchors.length).map((index) => anchors[index] as number);
  const toCheck = misses === 0 ? checkOf(lines, anchors)?.line : undefined;
  const wanted = toCheck === undefined ? order : [...order, toCheck];
  return wanted.filter((line) => lines[line] === 'new' && !given.has(line));
}

/**
 * A span follows when both its ends are proven, one of them now: knowing two anchors from the quiz
 * does not show that the lines between are known. The span of the check waits for it, unless a miss
 * means that there is none; and a right check speaks for the spans whose ends were known before, too.
 */
function impliedLines(
  lines: readonly Standing[],
  anchors: readonly number[],
  given: ReadonlyMap<number, boolean>,
): readonly number[] {
  const check = checkOf(lines, anchors);
  const checked = check === null ? undefined : given.get(check.line);
  const missed = anchors.some((line) => given.get(line) === false);
  const isGood = (line: number) => lines[line] === 'known' || given.get(line) === true;
  const follows = ({ ends }: Span): boolean => {
    if (!ends.every(isGood)) return false;
    if (checked === true) return true;
    const waits = ends[0] === check?.span.ends[0] && (checked === false || !missed);
    return !waits && ends.some((end) => given.has(end));
  };
  return spansOf(lines, anchors)
    .filter(follows)
    .flatMap(({ between }) => between.filter((line) => !given.has(line)));
}

/** The middle line of the span with most new lines; among equals the first. Null if there is none. */
function checkOf(
  lines: readonly Standing[],
  anchors: readonly number[],
): { readonly span: Span; readonly line: number } | null {
  const spans = spansOf(lines, anchors).filter(({ ends }) =>
    ends.every((end) => lines[end] !== 'apart'),
  );
  const widest = spans.reduce<Span | null>(
    (best, span) => (span.between.length > (best?.between.length ?? 0) ? span : best),
    null,
  );
  if (!widest) return null;
  const { between } = widest;
  return { span: widest, line: between[Math.floor(between.length / 2)] as number };
}

function spansOf(lines: readonly Standing[], anchors: readonly number[]): readonly Span[] {
  return anchors.slice(1).map((to, n) => {
    const from = anchors[n] as number;
    const between = lines.flatMap((standing, line) =>
      from < line && line < to && standing === 'new' ? [line] : [],
    );
    return { ends: [from, to], between };
  });
}

/** The middle, the two ends, then the middles of the gaps between: 2, 0, 4, 1, 3 for five. */
export function fromMiddle(count: number): readonly number[] {
  if (count === 0) return [];
  const middle = Math.floor(count / 2);
  const order = new Set([middle, 0, count - 1]);
  const gaps: [number, number][] = [
    [0, middle],
    [middle, count - 1],
  ];
  for (const [from, to] of gaps) {
    if (to - from < 2) continue;
    const half = Math.floor((from + to) / 2);
    order.add(half);
    gaps.push([from, half], [half, to]);
  }
  return [...order];
}

function check(
  lines: readonly Standing[],
  anchors: readonly number[],
  answers: readonly PlacementAnswer[],
): void {
  for (const [n, anchor] of anchors.entries()) {
    if (lines[anchor] === undefined) throw new RangeError(`no line ${anchor} of ${lines.length}`);
    if (n > 0 && anchor <= (anchors[n - 1] as number)) {
      throw new Error(`anchors do not ascend: ${anchors.join()}`);
    }
  }
  for (const { line } of answers) {
    if (lines[line] !== 'new') throw new Error(`line ${line} is ${lines[line] ?? 'not there'}`);
  }
  if (new Set(answers.map(({ line }) => line)).size < answers.length) {
    throw new Error(`a line was answered twice: ${answers.map(({ line }) => line).join()}`);
  }
}
