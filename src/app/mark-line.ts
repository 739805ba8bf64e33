import { type LineMark, notSaved } from '../quiz/index.ts';
import type { Model } from './model.ts';

/** Writes what a player says of a line; says what went wrong, if anything. */
export async function markLine(model: Model, mark: LineMark): Promise<string | null> {
  try {
    await model.append({ ...mark, day: model.today(), at: model.now() });
    return null;
  } catch (error) {
    return notSaved(error);
  }
}
