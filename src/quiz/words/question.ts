/**
 * Words for a question: what is given and what is asked. The names match the picture on the screen.
 */

import type { Field, Known, Question } from '../../cards/index.ts';
import { type Decimal, formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import type { Mirror, Naming } from '../../table/index.ts';
import { aimWords, railName, routeWords } from './names.ts';

/** Returns the whole question in one sentence, for screen readers. */
export function questionWords(question: Question, mirror: Mirror, naming: Naming): string {
  const pattern = patternOf(question.pattern);
  const from = `From ${formatDecimal(question.start)} on the ${railName(pattern.start.rail, mirror)}`;
  const aim = `${aimWords(naming)} which diamond of the ${railName(pattern.aim.rail, mirror)}?`;
  const route = `${from}, ${routeWords(pattern, mirror)}`;
  const { speed } = question;
  switch (question.kind) {
    case 'number':
    case 'in between':
      return `${route}, at ${speed} speed: ${aim}`;
    case 'window':
      return `${route}: how far do soft and firm move the number from medium?`;
    case 'trust':
      return `${route}: does it bank, is it thin, or is it a kick only?`;
    case 'arrival': {
      const off = cushionWords(question, mirror);
      const number = `${aimWords(naming)} ${formatDecimal(question.aim)} of the ${railName(pattern.aim.rail, mirror)}`;
      return `${from}, ${off}, ${number} at ${speed} speed: where on the ${railName(question.count.rail, mirror)} does it arrive?`;
    }
    case 'rail ball':
    case 'off the rail':
      return `${from}, ${cushionWords(question, mirror)}, at ${ballPlaceWords(question, mirror)}, at ${speed} speed: ${aim}`;
  }
}

/** Returns, for example, "off the foot rail, then the right rail". */
function cushionWords({ pattern: id }: Question, mirror: Mirror): string {
  const pattern = patternOf(id);
  const struck = pattern.stroke?.running ? 'with running side, ' : '';
  const cushions = pattern.cushions.map((rail) => railName(rail, mirror)).join(', then the ');
  return `${struck}off the ${cushions}`;
}

type BallQuestion = Extract<Question, { readonly kind: 'rail ball' | 'off the rail' }>;

/**
 * Returns, for example, "a ball at 5.5 on the right rail" or "a ball 1 diamond off the right rail,
 * level with 5.5".
 */
function ballPlaceWords(question: BallQuestion, mirror: Mirror): string {
  const rail = railName(question.count.rail, mirror);
  const at = formatDecimal(question.at);
  if (question.kind === 'rail ball') return `a ball at ${at} on the ${rail}`;
  return `a ball ${offWords(question.off)} off the ${rail}, level with ${at}`;
}

/** Returns, for example, "half a diamond", "1 diamond" or "1.5 diamonds". */
export function offWords(off: Decimal): string {
  if (off === toDecimal(0.5)) return 'half a diamond';
  return `${formatDecimal(off, 0)} ${off > toDecimal(1) ? 'diamonds' : 'diamond'}`;
}

/** Returns the task, which stands below the name of the pattern. */
export function taskWords(question: Question, mirror: Mirror): string {
  switch (question.kind) {
    case 'number':
    case 'window':
    case 'in between':
    case 'trust':
      return routeWords(patternOf(question.pattern), mirror);
    case 'arrival':
      return `${cushionWords(question, mirror)}, to the ${railName(question.count.rail, mirror)}`;
    case 'rail ball':
      return `${cushionWords(question, mirror)}, at a ball on the ${railName(question.count.rail, mirror)}`;
    case 'off the rail':
      return `${cushionWords(question, mirror)}, at a ball off the ${railName(question.count.rail, mirror)}`;
  }
}

/** Returns the label of an answer field. */
export function fieldLabel({ name }: Field, naming: Naming): string {
  switch (name) {
    case 'aim':
      return aimWords(naming);
    case 'place':
      return 'arrives at';
    case 'verdict':
      return 'trust';
    default:
      return `${name}, from medium`;
  }
}

/**
 * Returns the two known numbers of a question, such as "from 2.0: 1.0" or "side pocket at 4: 1.8".
 */
export function givenWords(question: Question): readonly string[] {
  switch (question.kind) {
    case 'in between':
      return question.anchors.map(
        ({ start, printed }) => `from ${formatDecimal(start)}: ${formatDecimal(printed)}`,
      );
    case 'arrival':
    case 'rail ball':
    case 'off the rail':
      return question.known.map((known) => `${knownName(known)}: ${formatDecimal(known.printed)}`);
    default:
      return [];
  }
}

/**
 * Returns the name of a known target and its place, such as "side pocket at 4", "corner at 8" or
 * "straight back at 3".
 */
export function knownName({ at, pocket }: Known): string {
  const what = pocket?.endsWith('side') ? 'side pocket' : pocket ? 'corner' : 'straight back';
  return `${what} at ${formatDecimal(at, 0)}`;
}
