/** The fuzzer: mutates valid inputs and those that reached new code. */

import { createDice, type Dice } from '../../src/cards/index.ts';
import type { Coverage } from './coverage.ts';
import { watchPrototypes } from './laws.ts';
import { mutatedBytes, mutatedText } from './mutate-text.ts';
import { mutatedValue } from './mutate-value.ts';
import { Broken, type Target } from './target.ts';

export interface Finding {
  readonly error: unknown;
  readonly input: unknown;
}

export interface Report {
  readonly name: string;
  readonly taken: number;
  readonly refused: number;
  /** One for each place in the code where it came about. */
  readonly findings: readonly Finding[];
  /** Milliseconds. */
  readonly slowest: number;
  readonly slowestInput: unknown;
  /** Inputs kept because their batch reached new code. */
  readonly kept: number;
}

/** Inputs between two looks at the coverage: few at first, then more, because a look is slow. */
function batchAfter(done: number): number {
  return done < 500 ? 10 : done < 5000 ? 50 : 500;
}

/** @param coverage without it, only valid inputs are mutated */
export async function fuzz(
  target: Target,
  count: number,
  seed: number,
  coverage: Coverage | null = null,
): Promise<Report> {
  const dice = createDice(seed);
  const corpus = [...target.seeds];
  const reached = new Set<string>();
  coverage?.take();
  const tally = new Tally();
  const prototypesUntouched = watchPrototypes();
  for (let done = 0; done < count; ) {
    const batch = Array.from({ length: Math.min(batchAfter(done), count - done) }, (_, n) =>
      // Each seed is an input, too.
      done + n < target.seeds.length ? target.seeds[done + n] : inputOf(target, corpus, dice),
    );
    for (const input of batch) await tally.run(target, input);
    prototypesUntouched();
    if (coverage && gotFurther(coverage, reached)) corpus.push(...batch);
    done += batch.length;
  }
  return { name: target.name, ...tally.report(), kept: corpus.length - target.seeds.length };
}

class Tally {
  private readonly verdicts = { taken: 0, refused: 0 };
  private readonly findings = new Map<string, Finding>();
  private slowest = 0;
  private slowestInput: unknown = null;

  async run(target: Target, input: unknown): Promise<void> {
    const began = performance.now();
    try {
      this.verdicts[await target.take(input)] += 1;
    } catch (error) {
      const place = placeOf(error);
      if (!this.findings.has(place)) this.findings.set(place, { error, input });
    }
    let took = performance.now() - began;
    // A parser that hangs does so again; a busy machine does not.
    if (took > 1000) took = Math.min(took, await timeOf(target, input));
    if (took > this.slowest) [this.slowest, this.slowestInput] = [took, input];
  }

  report() {
    const { slowest, slowestInput } = this;
    return { ...this.verdicts, findings: [...this.findings.values()], slowest, slowestInput };
  }
}

/** Milliseconds that an input takes, whatever its verdict. */
async function timeOf(target: Target, input: unknown): Promise<number> {
  const began = performance.now();
  await Promise.resolve(input).then(target.take).catch(placeOf);
  return performance.now() - began;
}

/** Has code run that never ran before? */
function gotFurther(coverage: Coverage, reached: Set<string>): boolean {
  const before = reached.size;
  for (const block of coverage.take()) reached.add(block);
  return reached.size > before;
}

function inputOf({ form, seeds }: Target, corpus: readonly unknown[], dice: Dice): unknown {
  // Half come from valid inputs; otherwise kept inputs that are all refused would crowd them out.
  const one = dice.pick(dice.next() < 0.5 ? seeds : corpus);
  const other = dice.pick(corpus);
  if (form === 'value') return mutatedValue(one, other, dice);
  if (form === 'bytes') return mutatedBytes(one as Uint8Array, other as Uint8Array, dice);
  if (form === 'json' && dice.next() < 0.4) return jsonOf(one as string, other as string, dice);
  return mutatedText(one as string, other as string, form === 'json', dice);
}

/** The text of a mutated value, if the text is JSON. */
function jsonOf(one: string, other: string, dice: Dice): string {
  try {
    const changed = mutatedValue(JSON.parse(one), JSON.parse(other), dice);
    return JSON.stringify(changed, writable) ?? '';
  } catch {
    // Earlier mutations left it invalid, or nested too deep to copy.
    return mutatedText(one, other, true, dice);
  }
}

function writable(_key: string, value: unknown): unknown {
  return typeof value === 'bigint' ? String(value) : value;
}

/** The broken law, or where the code failed: the first lines of the stack. */
function placeOf(error: unknown): string {
  if (error instanceof Broken) return error.law;
  if (!(error instanceof Error)) return String(error);
  const lines = (error.stack ?? '').split('\n').filter((line) => line.includes(' at '));
  return `${error.name} ${lines.slice(0, 2).join()}`;
}
