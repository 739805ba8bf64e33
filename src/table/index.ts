export {
  CLUB_CLOTH,
  type Condition,
  contactSine,
  GRAVITY,
  SPEEDS,
  type Speed,
  TABLES,
  type TableSize,
} from './condition.ts';
export { type CushionLaw, cushionImpact, type Spinning } from './cushion.ts';
export {
  type Count,
  diamondLength,
  diamondOf,
  divisions,
  isLongRail,
  MIRRORS,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorPoint,
  mirrorRail,
  outward,
  POCKETS,
  type PocketName,
  type Point,
  pocketInRail,
  pocketMouth,
  pocketTips,
  pointAt,
  RAILS,
  type Rail,
  sightAt,
  type Table,
} from './geometry.ts';
export { type Ball, type Stretch, settledVelocity } from './motion.ts';
export { mirrorRoute, missAlong, type Route, type Target, targetPoint } from './route.ts';
export {
  ballOnLine,
  type Flight,
  fly,
  type Launch,
  rebound,
  runToAnyRail,
  type Setting,
  type Touch,
} from './shot.ts';
export {
  type LineNumbers,
  mirrorAim,
  playLine,
  type SolvedLine,
  solveLine,
  solveSpeeds,
  UNREACHABLE,
  type Unreachable,
} from './solve.ts';
