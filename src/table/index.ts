export {
  CLUB_CLOTH,
  CONDITIONS,
  type Condition,
  type ConditionName,
  contactSine,
  GRAVITY,
  POCKET_SIZES,
  type PocketSize,
  SPEEDS,
  type Speed,
  TABLES,
  type TableSize,
  withPockets,
} from './condition.ts';
export { type CushionLaw, cushionImpact, type Spinning } from './cushion.ts';
export {
  type Count,
  diamondLength,
  diamondOf,
  divisions,
  type Edge,
  isLongRail,
  MIRRORS,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorPoint,
  mirrorRail,
  noseEdge,
  onTable,
  outward,
  POCKETS,
  type PocketName,
  type Point,
  pocketInRail,
  pocketMouth,
  pocketPoint,
  pocketTips,
  pointAt,
  RAILS,
  type Rail,
  sightAt,
  type Table,
  touchEdge,
} from './geometry.ts';
export { fullnessAt, type Hit, type HitOnPath, hitOnPath, strikesFirst } from './hit.ts';
export { hitHalfWidth } from './hit-width.ts';
export { type JawTouch, POCKET_OUTCOMES, type PocketRun, runIntoPocket } from './jaws.ts';
export { longBy } from './long.ts';
export {
  type MakeWindow,
  makeWindow,
  makeWindowOf,
  playIntoPocket,
  type WindowSearch,
} from './make-window.ts';
export { JAW_PARTS, type JawPart } from './meeting.ts';
export { mirrorAim } from './mirror.ts';
export { type Ball, pointAlong, type Stretch, settledVelocity } from './motion.ts';
export { aimNamed, NAMINGS, type Naming, nameAim } from './naming.ts';
export { isSidePocket, type Jaw, type PocketShape, pocketShape } from './pocket.ts';
export {
  arrivalCount,
  mirrorRoute,
  missAlong,
  type RailTarget,
  type Route,
  type Target,
  targetEdge,
  targetLine,
  targetPoint,
} from './route.ts';
export {
  type Arrival,
  ballOnLine,
  continueFlight,
  type Flight,
  fly,
  type Launch,
  type Passage,
  passCushions,
  rebound,
  runToAnyRail,
  type Setting,
  type Touch,
  touchInPocket,
} from './shot.ts';
export {
  type LineNumbers,
  playLine,
  type SolvedLine,
  type Stroke,
  solveLine,
  solveSpeeds,
  solveStarts,
  UNREACHABLE,
  type Unreachable,
} from './solve.ts';
