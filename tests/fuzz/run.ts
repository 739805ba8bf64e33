/**
 * The long run, `npm run fuzz`: FUZZ_INPUTS inputs in all (default 1,000,000) from FUZZ_SEED (default:
 * the clock), for the parsers whose names contain FUZZ_ONLY.
 */

import { inspect } from 'node:util';
import { watchCoverage } from './coverage.ts';
import { fuzz, type Report } from './fuzz.ts';
import { TARGETS } from './targets.ts';

const inputs = Number(process.env.FUZZ_INPUTS ?? 1_000_000);
const seed = Number(process.env.FUZZ_SEED ?? Date.now() % 2 ** 32);
const only = process.env.FUZZ_ONLY ?? '';
const targets = TARGETS.filter(({ name }) => name.includes(only));
const shares = targets.reduce((sum, { share }) => sum + share, 0);

console.log(`seed ${seed}, ${inputs} inputs`);
const coverage = watchCoverage();
const reports: Report[] = [];
for (const target of targets) {
  const report = await fuzz(target, Math.ceil((inputs * target.share) / shares), seed, coverage);
  reports.push(report);
  console.log(lineOf(report));
  for (const { error, input } of report.findings) {
    console.log(`  FOUND ${error instanceof Error ? error.stack : String(error)}`);
    console.log(`  by ${inspect(input, { depth: 12, maxStringLength: 3000 }).slice(0, 6000)}`);
  }
  if (report.slowest > 1000)
    console.log(`  HANGS on ${inspect(report.slowestInput).slice(0, 3000)}`);
}
coverage.stop();

const sum = (of: (report: Report) => number) => reports.reduce((all, one) => all + of(one), 0);
const found = sum(({ findings }) => findings.length);
const slow = reports.filter(({ slowest }) => slowest > 1000).length;
const total = sum(({ taken, refused }) => taken + refused);
console.log(`${total} inputs gave a value; ${found} findings; over a second: ${slow} parsers`);
process.exitCode = found + slow > 0 ? 1 : 0;

function lineOf({ name, taken, refused, findings, slowest, kept }: Report): string {
  const counts = [taken + refused, taken, refused].map((count) => String(count).padStart(8));
  const [all, yes, no] = counts;
  return `${name.padEnd(40)}${all} inputs ${yes} taken ${no} refused, ${findings.length} findings, slowest ${slowest.toFixed(1)} ms, ${kept} kept`;
}
