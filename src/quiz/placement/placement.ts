/**
 * Placement of one pattern: decides which line to ask next, and what the answers prove. Pure. A
 * line is given by its position in the pattern, ordered by ascending start. Placement asks the
 * anchors, because the other lines follow from them. If all anchors are right, it asks one more
 * line as a check.
 */

/**
 * `new`: the line was never shown, so placement may ask it. `known`: the line was right when last
 * asked, so it is not asked again and serves as proven. `excluded`: the line was set aside, or was
 * met but is not known. Such a line is neither asked nor counted as proven.
 */
export type LineState = 'new' | 'known' | 'excluded';

export interface PlacementAnswer {
  readonly line: number;
  readonly right: boolean;
}

export interface PlacementPlan {
  /** The line to ask; null if the pattern is finished. */
  readonly next: number | null;
  /** Lines that were asked and answered right, ascending. */
  readonly proven: readonly number[];
  /** Lines between proven anchors that were not asked. Once implied, a line stays implied. */
  readonly implied: readonly number[];
  /** New lines that are neither proven nor implied, ascending. */
  readonly left: readonly number[];
  /** The largest number of questions still to come. */
  readonly most: number;
}

/** Two neighboring anchors and the new lines between them. */
interface Span {
  readonly ends: readonly [number, number];
  readonly between: readonly number[];
}

/**
 * A pattern ends when it has this many more misses than hits (our own rule: common practice, no
 * source).
 */
export const ENOUGH_MISSES = 2;

/**
 * Decides the next question, and what the answers so far prove.
 * @param anchors positions of the pattern's anchors, ascending
 * @param answers the answers in any order, at most one per line
 * @throws if an anchor or an answer belongs to no line, or if an answered line is not new
 */
export function placementPlan(
  lines: readonly LineState[],
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
    left: lines.flatMap((state, line) => (state === 'new' && !settled.has(line) ? [line] : [])),
    most: asked.length,
  };
}

/** Returns the lines still to ask, on the assumption that every further answer is right. */
function toAsk(
  lines: readonly LineState[],
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
 * Returns the lines that are implied. The lines of a span are implied if both ends are known or
 * proven, and at least one end was proven in this placement. Two anchors known from the quiz alone
 * do not show that the player knows the lines between them. The span of the check waits for the
 * check, unless a miss has canceled the check. If the check is right, spans between anchors that
 * were known before are implied too.
 */
function impliedLines(
  lines: readonly LineState[],
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

/**
 * Returns the span with the most new lines, and its middle line. If several spans have equally
 * many, it takes the first. Null if there is no span with new lines.
 */
function checkOf(
  lines: readonly LineState[],
  anchors: readonly number[],
): { readonly span: Span; readonly line: number } | null {
  const spans = spansOf(lines, anchors).filter(({ ends }) =>
    ends.every((end) => lines[end] !== 'excluded'),
  );
  const widest = spans.reduce<Span | null>(
    (best, span) => (span.between.length > (best?.between.length ?? 0) ? span : best),
    null,
  );
  if (!widest) return null;
  const { between } = widest;
  return { span: widest, line: between[Math.floor(between.length / 2)] as number };
}

function spansOf(lines: readonly LineState[], anchors: readonly number[]): readonly Span[] {
  return anchors.slice(1).map((to, n) => {
    const from = anchors[n] as number;
    const between = lines.flatMap((state, line) =>
      from < line && line < to && state === 'new' ? [line] : [],
    );
    return { ends: [from, to], between };
  });
}

/**
 * Returns indexes in this order: the middle, the two ends, then the middles of the gaps. For a
 * count of five: 2, 0, 4, 1, 3.
 */
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
  lines: readonly LineState[],
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
