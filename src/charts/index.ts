export {
  type AnchorEntry,
  type AnchorPlan,
  type AnchorSpan,
  anchorBound,
  anchorNumbers,
  anchorsOf,
  chooseAnchors,
  type Spared,
} from './anchors.ts';
export {
  BASES,
  type Basis,
  type Chart,
  type ChartDocument,
  computeChart,
  type Gap,
  isPatternId,
  type Line,
  type LineNumber,
  type MeasuredLine,
  patternOf,
  type Revision,
  settingOf,
  startsFrom,
  startsOf,
} from './chart.ts';
export {
  type Decimal,
  type DecimalError,
  formatDecimal,
  minus,
  parseDecimal,
  plus,
  roundTo,
  size,
  toDecimal,
  toNumber,
} from './decimal.ts';
export { HARBOUR_LANE } from './demo.ts';
export { type Knot, monotoneCubic } from './monotone-cubic.ts';
export { isMeasured, launchOf, numberAt, numberOrWhy, numberTo } from './numbers.ts';
export { kickTo, PATTERNS, type Pattern, type PatternId } from './patterns.ts';
export { type AnchorNumber, interpolate } from './proportion.ts';
export { type ParsedCondition, parseChart, parseCondition } from './schema.ts';
export {
  computeSheet,
  type Drift,
  inDiamonds,
  isWhole,
  type Sheet,
  type SheetLine,
  type SheetNumber,
  type SheetRequest,
} from './sheet.ts';
export {
  type Counting,
  type CountStop,
  countFrom,
  cueFor,
  type StepCue,
  stepCues,
} from './step-cue.ts';
export {
  BANKS,
  THIN,
  VERDICTS,
  type Verdict,
  type VerdictKind,
  verdictOf,
  widthOf,
} from './verdict.ts';
