import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fromMiddle,
  type LineState,
  type PlacementAnswer,
  type PlacementPlan,
  placementPlan,
} from '../../../src/quiz/placement/placement.ts';

/** These tests hold the project's own rule of placement: common practice, no source. */
describe('the order of questions', () => {
  it.each([
    [1, [0]],
    [2, [1, 0]],
    [3, [1, 0, 2]],
    [5, [2, 0, 4, 1, 3]],
    [9, [4, 0, 8, 2, 6, 1, 3, 5, 7]],
  ])('of %d anchors: the middle, the ends, then by bisection', (count, order) => {
    expect(fromMiddle(count)).toEqual(order);
  });

  it('has every anchor once', () => {
    fc.assert(
      fc.property(fc.nat(40), (count) => {
        const all = Array.from({ length: count }, (_, n) => n);
        expect([...fromMiddle(count)].sort((a, b) => a - b)).toEqual(all);
      }),
    );
  });
});

describe('placement of a pattern', () => {
  it('ends after at most one more question than there are anchors, whatever the answers', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        const { answers } = play(lines, anchors, (line) => truth[line] ?? false);
        expect(answers.length).toBeLessThanOrEqual(anchors.length + 1);
        expect(new Set(answers.map(({ line }) => line)).size).toBe(answers.length);
      }),
    );
  });

  it('proves or implies every line of a new pattern if all answers are right', () => {
    fc.assert(
      fc.property(newCourseArb, ({ lines, anchors }) => {
        const { plan } = play(lines, anchors, () => true);
        expect(plan.left).toEqual([]);
        expect(plan.proven.length + plan.implied.length).toBe(lines.length);
        for (const anchor of anchors) expect(plan.proven).toContain(anchor);
      }),
    );
  });

  it('proves nothing and asks at most two lines if all answers are wrong', () => {
    fc.assert(
      fc.property(courseArb, ({ lines, anchors }) => {
        const { plan, answers } = play(lines, anchors, () => false);
        expect(plan.proven).toEqual([]);
        expect(plan.implied).toEqual([]);
        expect(answers.length).toBeLessThanOrEqual(2);
      }),
    );
  });

  it('puts every new line, and no other, into one of proven, implied and left', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        for (const plan of play(lines, anchors, (line) => truth[line] ?? false).plans) {
          const all = [...plan.proven, ...plan.implied, ...plan.left].sort((a, b) => a - b);
          const fresh = lines.flatMap((state, n) => (state === 'new' ? [n] : []));
          expect(all).toEqual(fresh);
        }
      }),
    );
  });

  it('never takes an implied line back, and never asks it', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        const { plans } = play(lines, anchors, (line) => truth[line] ?? false);
        for (const [n, plan] of plans.entries()) {
          expect(plan.implied).not.toContain(plan.next);
          for (const line of plans[n - 1]?.implied ?? []) expect(plan.implied).toContain(line);
        }
      }),
    );
  });

  it('depends only on the answers, not on their order', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        const { plan, answers } = play(lines, anchors, (line) => truth[line] ?? false);
        expect(placementPlan(lines, anchors, [...answers].reverse())).toEqual(plan);
      }),
    );
  });

  it('implies only lines between two anchors that are right', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        const { plan } = play(lines, anchors, (line) => truth[line] ?? false);
        for (const line of plan.implied) {
          const next = anchors.findIndex((anchor) => anchor > line);
          for (const end of [anchors[next - 1] ?? -1, anchors[next] ?? -1]) {
            expect(lines[end] === 'known' || plan.proven.includes(end)).toBe(true);
          }
        }
      }),
    );
  });

  it('asks no more questions than it announces', () => {
    fc.assert(
      fc.property(courseArb, truthArb, ({ lines, anchors }, truth) => {
        const { plans } = play(lines, anchors, (line) => truth[line] ?? false);
        for (const [n, { most }] of plans.entries()) {
          expect(plans.length - 1 - n).toBeLessThanOrEqual(most);
          const before = plans[n - 1];
          if (before) expect(most).toBeLessThan(before.most);
        }
      }),
    );
  });
});

describe('a pattern of nine lines with anchors at both ends and in the middle', () => {
  const lines = Array.from({ length: 9 }, () => 'new' as const);
  const anchors = [0, 3, 8];

  it('asks the middle anchor, the ends, and then a line of the widest span', () => {
    const { answers } = play(lines, anchors, () => true);
    expect(answers.map(({ line }) => line)).toEqual([3, 0, 8, 6]);
  });

  it('implies a span as soon as both its anchors are proven, that of the check after it', () => {
    const { plans } = play(lines, anchors, () => true);
    expect(plans.map(({ implied }) => implied)).toEqual([[], [], [1, 2], [1, 2], [1, 2, 4, 5, 7]]);
  });

  it('implies nothing in the span of a missed check', () => {
    const { plan } = play(lines, anchors, (line) => line !== 6);
    expect(plan).toMatchObject({ proven: [0, 3, 8], implied: [1, 2], left: [4, 5, 6, 7] });
  });

  it('leaves the spans beside a missed anchor, and asks no check', () => {
    const { plan, answers } = play(lines, anchors, (line) => line !== 0);
    expect(plan).toMatchObject({ proven: [3, 8], implied: [4, 5, 6, 7], left: [0, 1, 2] });
    expect(answers).toHaveLength(3);
  });

  it('resumes where it stopped: anchors known before are not asked again', () => {
    const later = lines.map((state, n): LineState => (n === 3 ? 'known' : state));
    const { plan, answers } = play(later, anchors, () => true);
    expect(answers.map(({ line }) => line)).toEqual([0, 8, 6]);
    expect(plan.left).toEqual([]);
  });

  it('implies nothing from anchors that were all known before until the check is right', () => {
    const known = lines.map((state, n): LineState => (anchors.includes(n) ? 'known' : state));
    expect(placementPlan(known, anchors, [])).toMatchObject({ next: 6, implied: [] });
    expect(play(known, anchors, () => true).plan.left).toEqual([]);
    expect(play(known, anchors, () => false).plan.implied).toEqual([]);
  });

  it('does not ask an anchor that is set aside, and implies nothing beside it', () => {
    const aside = lines.map((state, n): LineState => (n === 8 ? 'excluded' : state));
    const { plan, answers } = play(aside, anchors, () => true);
    expect(answers.map(({ line }) => line)).toEqual([3, 0, 2]);
    expect(plan).toMatchObject({ proven: [0, 2, 3], implied: [1], left: [4, 5, 6, 7] });
  });
});

describe('a programmer error', () => {
  it.each([
    ['an anchor that is no line', ['new'], [1], []],
    ['anchors that do not ascend', ['new', 'new'], [1, 0], []],
    ['an answer to a line that is known', ['known'], [0], [{ line: 0, right: true }]],
    [
      'two answers to one line',
      ['new'],
      [0],
      [
        { line: 0, right: true },
        { line: 0, right: false },
      ],
    ],
  ] as const)('%s throws', (_what, lines, anchors, answers) => {
    expect(() => placementPlan(lines, anchors, answers)).toThrow();
  });
});

interface Course {
  readonly lines: readonly LineState[];
  readonly anchors: readonly number[];
}

/** Answers until the pattern is finished; returns the plan before each answer, and the last one. */
function play(
  lines: readonly LineState[],
  anchors: readonly number[],
  knows: (line: number) => boolean,
) {
  const answers: PlacementAnswer[] = [];
  const plans: PlacementPlan[] = [placementPlan(lines, anchors, answers)];
  for (;;) {
    const plan = plans[plans.length - 1] as PlacementPlan;
    if (plan.next === null) return { plan, plans, answers };
    answers.push({ line: plan.next, right: knows(plan.next) });
    plans.push(placementPlan(lines, anchors, answers));
  }
}

function courses(state: fc.Arbitrary<LineState>): fc.Arbitrary<Course> {
  return fc.array(fc.tuple(state, fc.boolean()), { minLength: 1, maxLength: 16 }).map((all) => ({
    lines: all.map(([one]) => one),
    // The first and the last line are always anchors (src/charts/numbers/anchors.ts).
    anchors: all.flatMap(([, chosen], n) => (chosen || n === 0 || n === all.length - 1 ? [n] : [])),
  }));
}

const newCourseArb = courses(fc.constant<LineState>('new'));
const courseArb = fc.oneof(newCourseArb, courses(fc.constantFrom('new', 'known', 'excluded')));
const truthArb = fc.array(fc.boolean(), { minLength: 16, maxLength: 16 });
