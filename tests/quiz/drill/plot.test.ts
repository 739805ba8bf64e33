import { describe, expect, it } from 'vitest';
import { plotsOf } from '../../../src/quiz/drill/plot.ts';
import { drilled, off } from './drilling.ts';

describe('the errors of a drill over the rail', () => {
  it('are one plot per kind, without windows, verdicts and shown answers', () => {
    const plots = plotsOf([
      off(0, 0.1),
      off(1, 0.2, { kind: 'in between' }),
      drilled(2, { kind: 'window', answer: [0, 1], errors: [0, 1] }),
      drilled(3, { kind: 'trust', answer: [0], errors: [0], tolerance: 0 }),
      drilled(4, { kind: 'arrival', answer: null, errors: null, outcome: 'off' }),
    ]);
    expect(plots.map(({ kind }) => kind)).toEqual(['in between', 'rail ball']);
  });

  it('are at the start, at the ball, or where the ball arrives: the call minus its error', () => {
    const asked = { start: 5, speed: 'medium' } as const;
    const at = (kind: 'number' | 'rail ball' | 'off the rail' | 'arrival') =>
      plotsOf([
        off(0, 0.5, {
          kind,
          answer: [2.5],
          asked: kind === 'number' ? asked : { ...asked, at: 3 },
        }),
      ])[0]?.points[0]?.x;
    expect(at('number')).toBe(5);
    expect(at('rail ball')).toBe(3);
    expect(at('off the rail')).toBe(3);
    const arrival = off(0, 0.5, { kind: 'arrival', answer: [2.5], asked: { ...asked, aim: 1 } });
    expect(plotsOf([arrival])[0]?.points[0]?.x).toBe(2);
  });

  it('are in diamonds, or in tolerances if these differ', () => {
    const [same] = plotsOf([off(0, 0.2), off(1, -0.1)]);
    expect(same).toMatchObject({ tolerance: 0.1, points: [{ error: 0.2 }, { error: -0.1 }] });
    const [mixed] = plotsOf([off(0, 0.2), off(1, -0.1, { tolerance: 0.2 })]);
    expect(mixed).toMatchObject({ tolerance: 1, points: [{ error: 2 }, { error: -0.5 }] });
    expect(mixed?.xWords).toContain('errors in tolerances');
  });

  it('are over the start rail of the pattern, long or short', () => {
    // WPA Rules 8.1: eight divisions along a long rail, four along a short one.
    const start = { asked: { start: 1, speed: 'medium' }, kind: 'in between' } as const;
    expect(plotsOf([off(0, 0, start)])[0]?.domain).toEqual([0, 8]);
    expect(plotsOf([off(0, 0, { ...start, pattern: 'up-and-back' })])[0]?.domain).toEqual([0, 4]);
  });
});
