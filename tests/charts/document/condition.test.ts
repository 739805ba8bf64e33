import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HARBOUR_LANE, parseChart, parseCondition } from '../../../src/charts/index.ts';
import { CLUB_CLOTH, SPEEDS } from '../../../src/table/index.ts';

/** The limits of a chart's condition; document/condition-schema.ts has the reasons. Our own choice. */
const LIMITS = {
  restitution: [0.5, 1],
  noseFriction: [0, 0.25],
  slideFriction: [0.05, 0.5],
  rollFriction: [0.001, 0.05],
  spinDecay: [0, 100],
} as const;
const FIELDS = Object.keys(LIMITS) as (keyof typeof LIMITS)[];

describe('a condition from outside', () => {
  it('survives writing and reading', () => {
    expect(parseCondition(JSON.parse(JSON.stringify(CLUB_CLOTH)))).toEqual(valid({}));
  });

  it('is completed from the default condition, field by field and speed by speed', () => {
    expect(parseCondition({})).toEqual(valid({}));
    expect(parseCondition({ speeds: {} })).toEqual(valid({}));
    for (const field of FIELDS) {
      for (const value of LIMITS[field]) {
        expect(parseCondition({ [field]: value })).toEqual(valid({ [field]: value }));
      }
    }
    expect(parseCondition({ speeds: { firm: 5 } })).toEqual(
      valid({ speeds: { ...CLUB_CLOTH.speeds, firm: 5 } }),
    );
  });

  it.each(FIELDS)('%s beyond its limits is refused, with both limits', (field) => {
    const [least, most] = LIMITS[field];
    for (const value of [least - 0.001, most + 0.001, Number.NaN, '0.7', null, [0.7]]) {
      expect(refusal({ [field]: value })).toBe(
        `The field ${field} must be a number from ${least} to ${most}.`,
      );
    }
  });

  it.each(SPEEDS)('%s beyond its limits is refused by name', (speed) => {
    for (const value of [0.4, 11, '3', null]) {
      expect(refusal({ speeds: { [speed]: value } })).toBe(
        `The field speeds.${speed} must be a number from 0.5 to 10.`,
      );
    }
  });

  it.each([
    [{ speeds: { soft: 4 } }, 'The field speeds must rise from soft over medium to firm.'],
    [{ speeds: { soft: 3, medium: 3, firm: 3 } }, 'must rise'],
    [{ speeds: 3 }, 'The field speeds must be an object with any of soft, medium, firm.'],
    [{ speeds: null }, 'soft, medium, firm'],
    [{ restitutoin: 0.7 }, 'There is no field "restitutoin"; there are restitution, '],
    [{ speeds: { hard: 3 } }, 'There is no field "speeds.hard"; there are soft, medium, firm.'],
    [JSON.parse('{"__proto__": {}}'), 'There is no field "__proto__"'],
    [null, 'A condition is an object with any of restitution, '],
    [[], 'A condition is an object'],
    ['soft', 'A condition is an object'],
  ])('%j is refused, with what is allowed', (data, say) => {
    expect(refusal(data)).toContain(say);
  });

  it('is valid exactly if a chart with it is valid', () => {
    fc.assert(
      fc.property(
        fc.record(Object.fromEntries(FIELDS.map(around)), { requiredKeys: [] }),
        (data) => {
          const condition = { ...CLUB_CLOTH, ...data };
          const revision = { ...HARBOUR_LANE.revisions[0], condition };
          const chart = parseChart({ ...HARBOUR_LANE, revisions: [revision] });
          expect(parseCondition(data).ok).toBe(chart !== null);
        },
      ),
    );
  });

  it('makes nothing throw, and is refused in one sentence', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (data) => {
        const parsed = parseCondition(data);
        if (!parsed.ok) expect(parsed.say).toMatch(/^[A-Z][^\n]*\.$/);
      }),
    );
  });
});

function valid(change: object) {
  return { ok: true, condition: { ...CLUB_CLOTH, ...change } };
}

function refusal(data: unknown): string {
  const parsed = parseCondition(data);
  if (parsed.ok) throw new Error('the condition is valid');
  return parsed.say;
}

/** A value within the limits of a field or a little beyond. */
function around(field: keyof typeof LIMITS) {
  const [least, most] = LIMITS[field];
  const more = (most - least) / 20;
  return [field, fc.double({ min: least - more, max: most + more, noNaN: true })] as const;
}
