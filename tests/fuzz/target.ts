/** What is fuzzed: a way in for text or data from outside, with valid inputs and the laws it keeps. */

/** An input was taken, or refused with a value that says so. Anything else is a law broken. */
export type Verdict = 'taken' | 'refused';

export interface Target {
  readonly name: string;
  /** Which of the mutations fit its inputs. */
  readonly form: 'text' | 'json' | 'value' | 'bytes';
  /** Valid inputs to begin from. */
  readonly seeds: readonly unknown[];
  /** Of a long run's inputs, how many are for this one, beside the others' shares. */
  readonly share: number;
  /** @throws Broken, or whatever the parser throws: both are findings */
  readonly take: (input: unknown) => Verdict | Promise<Verdict>;
}

/** A parser gave a value and broke its word. */
export class Broken extends Error {
  /** `law`: the same for all that break it. */
  constructor(
    readonly law: string,
    detail: unknown,
  ) {
    super(detail === undefined ? law : `${law}: ${JSON.stringify(detail)?.slice(0, 300)}`);
  }
}

export function law(holds: boolean, says: string, detail?: unknown): void {
  if (!holds) throw new Broken(says, detail);
}

/** What is refused is refused with a sentence, on one line. */
export function refusedWith(say: string): Verdict {
  law(/^[A-Z"“\d-][^\n]{5,600}[.?!]$/su.test(say), 'what is said is no sentence', say);
  return 'refused';
}
