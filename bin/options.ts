/** Turns a command line into a request: reads each option, then combines the options. */

import {
  anchorBound,
  type Decimal,
  kickTo,
  PATTERNS,
  type Pattern,
  parseCondition,
  patternOf,
  type SheetRequest,
  startsFrom,
  toDecimal,
  toNumber,
} from '../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Condition,
  divisions,
  SPEEDS,
  type Stroke,
  TABLES,
  withPockets,
} from '../src/table/index.ts';
import { parseArguments, quote, type Valued } from './arguments.ts';
import type { Format } from './format.ts';
import { type Read, read, refuse } from './read.ts';
import { type Given, READERS, type SpeedsGiven } from './readers.ts';

/** What the command is asked to do. */
export type Command =
  | { readonly what: 'help' }
  | { readonly what: 'list'; readonly format: Format }
  | { readonly what: 'sheet'; readonly format: Format; readonly request: SheetRequest };

export type ReadFile = (path: string) => Read<string>;

export function parseOptions(argv: readonly string[], readFile: ReadFile): Read<Command> {
  const parsed = parseArguments(argv);
  if (!parsed.ok) return parsed;
  const { texts, switches } = parsed.value;
  if (switches.has('help')) return read({ what: 'help' });
  const given = readGiven(texts);
  if (!given.ok) return given;
  const { format = 'json' } = given.value;
  if (switches.has('list')) return read({ what: 'list', format });
  const request = requestOf(given.value, readFile);
  return request.ok ? read({ what: 'sheet', format, request: request.value }) : request;
}

function readGiven(texts: { readonly [name in Valued]?: string }): Read<Given> {
  const values: Record<string, unknown> = {};
  for (const [name, text] of Object.entries(texts) as [Valued, string][]) {
    const value: Read<unknown> = READERS[name](text, name);
    if (!value.ok) return value;
    values[name] = value.value;
  }
  // Each value comes from the reader with the same name.
  return read(values as Given);
}

function requestOf(given: Given, readFile: ReadFile): Read<SheetRequest> {
  const route = routeOf(given);
  if (!route.ok) return route;
  const starts = startsOf(route.value, given.starts);
  if (!starts.ok) return starts;
  const stroke = strokeOf(route.value, given);
  if (!stroke.ok) return stroke;
  const condition = conditionOf(given, readFile);
  if (!condition.ok) return condition;
  const printStep = toDecimal(Number(given.step ?? '0.1'));
  const tolerance = given.tolerance ?? toDecimal(0.1);
  if (tolerance < printStep) {
    return refuse('--tolerance is never finer than --step, which is 0.1 or 0.05.');
  }
  const table = withPockets(TABLES[given.table ?? '9ft'], given.pockets ?? 'standard');
  return read({
    setting: { table, condition: condition.value },
    route: route.value,
    starts: starts.value,
    printStep,
    naming: given.naming ?? 'through',
    stroke: stroke.value,
    anchorBound: anchorBound(tolerance),
  });
}

function routeOf({ pattern: id, target }: Given): Read<Pattern> {
  if (id === undefined) {
    const ids = PATTERNS.map((pattern) => pattern.id);
    return refuse(`--pattern is needed: one of ${ids.join(', ')}.`);
  }
  const pattern = patternOf(id);
  if (target === undefined) return read(pattern);
  const { rail } = pattern.kicks;
  return toNumber(target) > divisions(rail)
    ? refuse(`--target for ${id} is on the ${rail} rail, 0 to ${divisions(rail)}.`)
    : read(kickTo(pattern, toNumber(target)));
}

function startsOf(
  { id, start, starts }: Pattern,
  given: readonly Decimal[] | undefined,
): Read<readonly Decimal[]> {
  if (!given) {
    const [from, to] = starts;
    return read(startsFrom(toDecimal(from), toDecimal(to), toDecimal(0.5)));
  }
  const most = divisions(start.rail);
  return given.some((one) => toNumber(one) > most)
    ? refuse(`--starts for ${id} are on the ${start.rail} rail, 0 to ${most}.`)
    : read(given);
}

/** Returns the pattern's stroke with the given offsets. One kind of side replaces the other. */
function strokeOf(pattern: Pattern, given: Given): Read<Stroke> {
  if (given.side !== undefined && given.running !== undefined) {
    return refuse('Side is given as --side or as --running, not as both.');
  }
  const stroke = { ...(given.side === undefined ? pattern.stroke : {}), ...offsets(given) };
  const { follow = 0, side = 0, running = 0 } = stroke;
  // The limit of half the radius that applies to each offset also applies to both together.
  return Math.hypot(follow, side + running) > 0.5
    ? refuse('The tip is too far out: --follow and side together are at most 0.5 from the centre.')
    : read(stroke);
}

function offsets({ follow, side, running, along }: Given): Stroke {
  return {
    ...(follow === undefined ? {} : { follow: toNumber(follow) }),
    ...(side === undefined ? {} : { side: toNumber(side) }),
    ...(running === undefined ? {} : { running: toNumber(running) }),
    ...(along === undefined ? {} : { along: toNumber(along) }),
  };
}

function conditionOf({ condition: path, speeds }: Given, readFile: ReadFile): Read<Condition> {
  const condition = path === undefined ? read(CLUB_CLOTH) : conditionIn(path, readFile);
  if (!condition.ok || !speeds) return condition;
  const parsed = parseCondition(withSpeeds(condition.value, speeds));
  return parsed.ok ? read(parsed.condition) : refuse(`--speeds: ${parsed.say}`);
}

function conditionIn(path: string, readFile: ReadFile): Read<Condition> {
  const text = readFile(path);
  if (!text.ok) return text;
  let data: unknown;
  try {
    // Some editors begin a file with a byte order mark, which JSON does not allow.
    data = JSON.parse(text.value.replace(/^\uFEFF/, ''));
  } catch {
    const fields = Object.keys(CLUB_CLOTH).join(', ');
    return refuse(`The file ${quote(path)} is not JSON; it is an object with any of ${fields}.`);
  }
  const parsed = parseCondition(data);
  return parsed.ok ? read(parsed.condition) : refuse(`In ${quote(path)}: ${parsed.say}`);
}

function withSpeeds(condition: Condition, given: SpeedsGiven): Condition {
  const entries = SPEEDS.map((speed) => [speed, given[speed] ?? condition.speeds[speed]]);
  return { ...condition, speeds: Object.fromEntries(entries) as Condition['speeds'] };
}
