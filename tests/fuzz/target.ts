/** A target of the fuzzer: an entry for outside text or data, with valid inputs and its laws. */

/** An input is taken, or refused by a return value. Anything else is a finding. */
export type Verdict = 'taken' | 'refused';

export interface Target {
  readonly name: string;
  /** Which mutations suit its inputs. */
  readonly form: 'text' | 'json' | 'value' | 'bytes';
  /** Valid inputs to start from. */
  readonly seeds: readonly unknown[];
  /** Its share of a long run's inputs, relative to the other targets'. */
  readonly share: number;
  /** @throws Broken or whatever the parser throws; both are findings */
  readonly take: (input: unknown) => Verdict | Promise<Verdict>;
}

/** A parser returned a value that breaks a law. */
export class Broken extends Error {
  /** @param law its name, the same for all findings that break it */
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

/** A refusal says why in a sentence on one line. */
export function refusedWith(say: string): Verdict {
  law(/^[A-Z"“\d-][^\n]{5,600}[.?!]$/su.test(say), 'the reason is no sentence', say);
  return 'refused';
}
