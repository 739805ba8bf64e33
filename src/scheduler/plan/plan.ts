/**
 * The plan for a day that counts: what to ask today so that the most lines are known on that day.
 * It is found again each day, so missed days need no repair; docs/design/plan.md explains how.
 */

import { createDice } from '../../cards/index.ts';
import { memoryModel } from '../memory/memory.ts';
import { answersFor } from './enough.ts';
import { forecastRuns, type Outlook, outlookOf } from './forecast.ts';
import { findPrices } from './market.ts';
import type { PlanItem, PlanRequest } from './request.ts';
import { type Planning, planningOf } from './stock.ts';
import { askToday, roomOf } from './today.ts';

export interface DayPlan {
  readonly today: number;
  readonly day: number;
  /** Items to ask today, new or not, most urgent first. */
  readonly ask: readonly string[];
}

/** Lines held on the day if the plan is followed, with a 90 % interval of their count. */
export interface Forecast {
  readonly expected: number;
  readonly low: number;
  readonly high: number;
  readonly of: number;
}

export interface PlanReply {
  readonly plan: DayPlan;
  readonly forecast: Forecast;
  /** Expected lines held on each day, before its answers, from today to the day. */
  readonly curve: readonly { readonly day: number; readonly held: number }[];
  /** Answers expected on each day from today; of today, those still to come. */
  readonly load: readonly { readonly day: number; readonly answers: number }[];
  /** Are nine lines in ten expected to be held. */
  readonly enough: boolean;
  /** Answers a day that are enough; null if none will do. */
  readonly answersNeeded: number | null;
  /** Lines that the plan gives up, because their hold on the day is below ½. Least worth first. */
  readonly drop: readonly string[];
}

const ROUNDS = 4;
const SEED = 0x7ab1e;

/** The same request gives the same plan. */
export function planFor(request: PlanRequest): PlanReply {
  const planning = planningOf(request, memoryModel(request.model));
  const dice = createDice(SEED).next;
  const room = roomOf(planning, request);
  const market = findPrices(planning, room, ROUNDS, dice);
  const { worths } = market;
  const outlook = outlookOf(planning, worths, room, forecastRuns(planning), dice);
  const of = planning.stock.counted.length + planning.stock.interpolated.length;
  const { expected, low, high } = outlook;
  return {
    plan: planOf(request, planning, worths),
    forecast: { expected, low, high, of },
    curve: curveOf(request, planning, outlook),
    load: loadOf(request, planning, outlook),
    enough: expected >= ENOUGH * of,
    answersNeeded: answersFor(planning, request, market, expected, ENOUGH * of),
    drop: dropOf(request, planning, outlook),
  };
}

/** This part of all lines is enough. */
const ENOUGH = 0.9;

/** What to ask today, without a forecast. */
export function dayPlanFor(request: PlanRequest): DayPlan {
  const planning = planningOf(request, memoryModel(request.model));
  const room = roomOf(planning, request);
  const { worths } = findPrices(planning, room, ROUNDS, createDice(SEED).next);
  return planOf(request, planning, worths);
}

function planOf(
  request: PlanRequest,
  planning: Planning,
  worths: Parameters<typeof askToday>[1],
): DayPlan {
  const { today, day } = request;
  return { today, day, ask: askToday(planning, worths, request) };
}

/** Linear between the steps of a long plan. */
function curveOf(
  { today }: PlanRequest,
  { horizon }: Planning,
  { held }: Outlook,
): PlanReply['curve'] {
  const { days, offsets, stride } = horizon;
  return Array.from({ length: days + 1 }, (_, n) => {
    const step = Math.min(horizon.steps, Math.floor(n / stride));
    const [from, to] = [offsets[step] as number, offsets[step + 1] ?? days];
    const [low, high] = [held[step] as number, held[step + 1] ?? (held[step] as number)];
    const part = n === days || to === from ? Number(n === days) : (n - from) / (to - from);
    return { day: today + n, held: low + part * (high - low) };
  });
}

function loadOf(
  { today }: PlanRequest,
  { horizon }: Planning,
  { answers }: Outlook,
): PlanReply['load'] {
  const { days, offsets, stride } = horizon;
  return Array.from({ length: days }, (_, n) => {
    const step = Math.floor(n / stride);
    const span = (offsets[step + 1] as number) - (offsets[step] as number);
    return { day: today + n, answers: (answers[step] as number) / span };
  });
}

function dropOf(
  request: PlanRequest,
  { stock }: Planning,
  { holds, interpolated }: Outlook,
): readonly string[] {
  const lines = [
    ...stock.counted.map((n) => ({
      id: (stock.items[n] as PlanItem).id,
      weight: stock.weights[n] as number,
      hold: holds[n] as number,
    })),
    ...request.interpolated.map(({ id }, n) => ({
      id,
      weight: stock.interpolated[n]?.weight ?? 0,
      hold: interpolated[n] as number,
    })),
  ];
  return lines
    .filter(({ hold }) => hold < 0.5)
    .sort((a, b) => a.weight - b.weight || a.hold - b.hold)
    .map(({ id }) => id);
}
