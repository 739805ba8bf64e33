/**
 * Places boxes and arrows: a row for each floor, the highest first. An arrow that passes a floor gets a
 * lane between its boxes (a small version of Sugiyama, Tagawa & Toda 1981).
 */

import { measured, type Size } from './measure.ts';
import type { Room } from './rooms.ts';
import { spread } from './spread.ts';

export interface Box extends Size {
  readonly room: Room;
  readonly x: number;
  readonly y: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Places {
  readonly boxes: readonly Box[];
  /** The points of each arrow, from the importer down to what it imports. */
  readonly arrows: readonly (readonly Point[])[];
  readonly bottom: number;
}

/** A box, or the lane of an arrow that passes a floor. */
interface Stop {
  readonly size: Size | null;
  readonly room: Room | null;
  readonly floor: number;
  readonly up: Stop[];
  readonly down: Stop[];
  /** Its middle. */
  x: number;
}

const LANE = 16;
const SIDE = 30;
const DROP = 38;
const SWEEPS = 200;
const STRAIGHT = 4;

export function placed(rooms: readonly Room[], width: number, top: number): Places {
  const rows = stopsOf(rooms);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    for (const row of sweep % 2 === 0 ? rows : [...rows].reverse()) settle(row, width);
  }
  center(rows.flat(), width);
  const tops = topsOf(rows, top);
  const boxes = rows.flat().flatMap((stop) => boxOf(stop, tops));
  const last = rows[0] ?? [];
  return { boxes, arrows: arrowsOf(rows, tops), bottom: (tops[0] ?? top) + heightOf(last) };
}

/** The stops of each floor. */
function stopsOf(rooms: readonly Room[]): Stop[][] {
  const rows: Stop[][] = [];
  const add = (room: Room | null, floor: number): Stop => {
    const stop: Stop = { size: room && measured(room), room, floor, up: [], down: [], x: 0 };
    const row = rows[floor] ?? [];
    rows[floor] = row;
    stop.x = row.push(stop);
    return stop;
  };
  const byName = new Map(rooms.map((room) => [room.name, add(room, room.floor)]));
  for (const from of byName.values())
    for (const name of from.room?.imports ?? []) {
      let last = from;
      const to = byName.get(name) as Stop;
      for (let floor = from.floor - 1; floor > to.floor; floor--) {
        const lane = add(null, floor);
        connect(last, lane);
        last = lane;
      }
      connect(last, to);
    }
  return rows;
}

function connect(upper: Stop, lower: Stop): void {
  upper.down.push(lower);
  lower.up.push(upper);
}

/** Moves the stops of a floor towards the middle of what they connect to, without overlaps. */
function settle(row: Stop[], width: number): void {
  const wanted = (stop: Stop): number => {
    // Lanes have more weight, so that they become straight.
    const others = [...stop.up, ...stop.down].map((other) => ({
      x: other.x,
      weight: other.room && stop.room ? 1 : STRAIGHT,
    }));
    const weights = others.reduce((sum, { weight }) => sum + weight, 0);
    return others.reduce((sum, { x, weight }) => sum + weight * x, 0) / Math.max(1, weights);
  };
  const wishes = new Map(row.map((stop) => [stop, wanted(stop)]));
  row.sort((a, b) => (wishes.get(a) as number) - (wishes.get(b) as number));
  const halves = row.map(({ size }) => (size?.width ?? LANE) / 2);
  const xs = spread(
    row.map((stop) => wishes.get(stop) as number),
    halves.map((half, n) => half + SIDE + (halves[n + 1] ?? 0)),
    [(halves[0] ?? 0) + SIDE, width - (halves.at(-1) ?? 0) - SIDE],
  );
  for (const [n, stop] of row.entries()) stop.x = xs[n] as number;
}

function center(stops: readonly Stop[], width: number): void {
  const left = Math.min(...stops.map(({ x, size }) => x - (size?.width ?? 0) / 2));
  const right = Math.max(...stops.map(({ x, size }) => x + (size?.width ?? 0) / 2));
  for (const stop of stops) stop.x += (width - left - right) / 2;
}

function heightOf(row: readonly Stop[]): number {
  return Math.max(0, ...row.map(({ size }) => size?.height ?? 0));
}

/** The top of each floor's row. */
function topsOf(rows: readonly (readonly Stop[])[], top: number): readonly number[] {
  const tops: number[] = [];
  let y = top;
  for (let floor = rows.length - 1; floor >= 0; floor--) {
    tops[floor] = y;
    y += heightOf(rows[floor] ?? []) + DROP;
  }
  return tops;
}

function boxOf({ room, size, floor, x }: Stop, tops: readonly number[]): readonly Box[] {
  if (!room || !size) return [];
  return [{ ...size, room, x: Math.round(x - size.width / 2), y: tops[floor] as number }];
}

function arrowsOf(rows: readonly (readonly Stop[])[], tops: readonly number[]) {
  const ports = new Map(rows.flat().map((stop) => [stop, portsOf(stop)]));
  const edge = (stop: Stop, other: Stop, side: 'up' | 'down'): Point => {
    const x = ports.get(stop)?.[side].get(other) ?? stop.x;
    const y = tops[stop.floor] as number;
    const deep = stop.size?.height ?? heightOf(rows[stop.floor] ?? []);
    return { x, y: side === 'up' ? y : y + deep };
  };
  return rows.flat().flatMap((from) =>
    from.room
      ? from.down.map((next) => {
          const points = [edge(from, next, 'down')];
          let [before, to] = [from, next];
          while (!to.room) {
            points.push(edge(to, before, 'up'), edge(to, before, 'down'));
            [before, to] = [to, to.down[0] as Stop];
          }
          return [...points, edge(to, before, 'up')];
        })
      : [],
  );
}

/** Where arrows touch a box: directly above or below their other end if there is room. */
function portsOf(stop: Stop): Readonly<Record<'up' | 'down', ReadonlyMap<Stop, number>>> {
  const half = reachOf(stop);
  const on = (others: readonly Stop[]): ReadonlyMap<Stop, number> => {
    const wishes = others.map((other) => ({ other, wish: between(stop, other) }));
    wishes.sort((a, b) => a.wish - b.wish || a.other.x - b.other.x);
    const wanted = wishes.map(({ wish }) => Math.min(stop.x + half, Math.max(stop.x - half, wish)));
    const gaps = wishes.map(() => 2 * LANE);
    const xs = stop.room ? spread(wanted, gaps, [stop.x - half, stop.x + half]) : [];
    return new Map(wishes.map(({ other }, n) => [other, xs[n] ?? stop.x]));
  };
  return { up: on(stop.up), down: on(stop.down) };
}

function reachOf({ size }: Stop): number {
  return Math.max(0, (size?.width ?? 0) / 2 - 2 * LANE);
}

/** The middle of the x range that two stops share, or of the gap between them. */
function between(a: Stop, b: Stop): number {
  const low = Math.max(a.x - reachOf(a), b.x - reachOf(b));
  const high = Math.min(a.x + reachOf(a), b.x + reachOf(b));
  return (low + high) / 2;
}
