/** Parses a table's condition from outside data. Returns the condition, or a sentence to show. */

import * as v from 'valibot';
import { CLUB_CLOTH, type Condition, SPEEDS } from '../../table/index.ts';

const between = (least: number, most: number) => {
  const limits = `must be a number from ${least} to ${most}`;
  return v.pipe(v.number(limits), v.minValue(least, limits), v.maxValue(most, limits));
};

/**
 * The limits keep the impact model within its range. Published restitution is 0.6–0.98. Friction at
 * the nose must be so low that the ball stays on the cloth.
 */
export const conditionSchema = v.object({
  restitution: between(0.5, 1),
  noseFriction: between(0, 0.25),
  slideFriction: between(0.05, 0.5),
  rollFriction: between(0.001, 0.05),
  spinDecay: between(0, 100),
  speeds: v.pipe(
    v.object({ soft: between(0.5, 10), medium: between(0.5, 10), firm: between(0.5, 10) }),
    v.check(
      ({ soft, medium, firm }) => soft < medium && medium < firm,
      'must rise from soft over medium to firm',
    ),
  ),
});

export type ParsedCondition =
  | { readonly ok: true; readonly condition: Condition }
  /** `say` is a sentence that names the field and its limits, or lists the fields. */
  | { readonly ok: false; readonly say: string };

const FIELDS = Object.keys(conditionSchema.entries);

/**
 * Parses a table condition from outside data, within the limits of a chart's condition. Fields that
 * are left out are taken from `CLUB_CLOTH`. An unknown field is an error, because it is likely a
 * typo.
 */
export function parseCondition(data: unknown): ParsedCondition {
  if (!isRecord(data)) return refuse(`A condition is an object with any of ${FIELDS.join(', ')}.`);
  const speeds = data.speeds === undefined ? {} : data.speeds;
  if (!isRecord(speeds))
    return refuse(`The field speeds must be an object with any of ${SPEEDS.join(', ')}.`);
  const unknown = strayIn(data, FIELDS) ?? strayIn(speeds, SPEEDS, 'speeds.');
  if (unknown) return refuse(unknown);
  const result = v.safeParse(conditionSchema, {
    ...CLUB_CLOTH,
    ...data,
    speeds: { ...CLUB_CLOTH.speeds, ...speeds },
  });
  if (result.success) return { ok: true, condition: result.output };
  const [issue] = result.issues;
  return refuse(`The field ${v.getDotPath(issue)} ${issue.message}.`);
}

function strayIn(data: object, fields: readonly string[], within = ''): string | null {
  const stray = Object.keys(data).find((key) => !fields.includes(key));
  return stray === undefined
    ? null
    : `There is no field ${JSON.stringify(within + stray.slice(0, 40))}; there are ${fields.join(', ')}.`;
}

function refuse(say: string): ParsedCondition {
  return { ok: false, say };
}

export function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
