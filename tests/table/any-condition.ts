/** Any condition a chart may have. */

import fc from 'fast-check';
import { CLUB_CLOTH, type Condition } from '../../src/table/index.ts';

export const anyCondition: fc.Arbitrary<Condition> = fc
  .tuple(
    // The range of a chart (src/charts/document/condition-schema.ts).
    fc.double({ min: 0.5, max: 1, noNaN: true }),
    fc.double({ min: 0, max: 0.25, noNaN: true }),
    fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    fc.double({ min: 0.001, max: 0.05, noNaN: true }),
  )
  .map(([restitution, noseFriction, slideFriction, rollFriction]) => ({
    ...CLUB_CLOTH,
    restitution,
    noseFriction,
    slideFriction,
    rollFriction,
  }));
