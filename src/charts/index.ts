export { ACCOUNTS, type Account, type Judged, judged } from './account.ts';
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
  type Cell,
  type ConditionField,
  cellKey,
} from './cells.ts';
export {
  type Chart,
  type ChartNumber,
  computeChart,
  type Gap,
  type Line,
  type LineNumber,
  NUMBER_SOURCES,
  type NumberSource,
  type Shared,
} from './chart.ts';
export { anchorsIn, type PatternAnchors } from './chart-anchors.ts';
export {
  CHART_SCHEMA,
  type ChartFileError,
  formatChartFile,
  LONGEST_FILE,
  type ReadFile,
  readChartFile,
} from './chart-file.ts';
export { formatCompact, readCompact } from './compact.ts';
export {
  type ConditionAnswer,
  type ConditionFit,
  conditionOf,
  type FittedShot,
  NO_CONDITION,
  type NoCondition,
} from './condition-fit.ts';

export type { Knob } from './condition-knobs.ts';
export { type ParsedCondition, parseCondition } from './condition-schema.ts';
export { correctedNumber } from './corrected.ts';
export { correctionOf, DOUBTED, type JudgedShot, type Tonight } from './correction.ts';
export {
  type Amount,
  type Correction,
  NO_CORRECTION,
  type NoCorrection,
} from './correction-choice.ts';
export type { NumberGroup } from './correction-fit.ts';
export { CSV_DIALECTS, type CsvColumn, type CsvDialect, formatCsv } from './csv.ts';
export { type ParsedCsv, parseCsv } from './csv-reading.ts';
export { type CsvRow, measuredRows, printedRows, withCsv } from './csv-rows.ts';
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
export { HARBOUR_LANE, HARBOUR_LANE_BAR } from './demo.ts';
export {
  applyDiff,
  type Change,
  changedCell,
  changedLines,
  diffStates,
  type LineChange,
} from './diff.ts';
export { canonical, digestOf, fnv1a } from './digest.ts';
export {
  BASES,
  type Basis,
  type ChartDocument,
  type ChartState,
  emptyState,
  inOrder,
  isPatternId,
  type Level,
  type LevelEntry,
  type Levels,
  type LinePlace,
  lastRevision,
  levelOf,
  type MeasuredLine,
  PRIORITIES,
  type Priority,
  type PriorityEntry,
  patternOf,
  placeKey,
  prioritiesIn,
  priorityOf,
  type Remark,
  type Revision,
  remarkOn,
  settingOf,
  stateOf,
} from './document.ts';
export {
  beginDraft,
  type Draft,
  edit,
  endRun,
  isSameState,
  MOST_STEPS,
  redo,
  undo,
} from './draft.ts';
export {
  clearColumn,
  LEVEL_NAMES,
  renameLevel,
  setCondition,
  setLevel,
  setNumber,
  setOrder,
  setPattern,
  setPriority,
  setRemark,
  takeLines,
} from './edits.ts';
export {
  type Evening,
  type EveningRequest,
  eveningOf,
  type MovedNumber,
  type MovedPattern,
  movedPatterns,
} from './evening.ts';
export { givenLines, sheetStarts } from './given.ts';
export { isolated } from './isolated.ts';
export { type Joined, joinCharts } from './join.ts';
export { type Merge, mergeCharts } from './merge.ts';
export { type Conflict, cellIn, mergeStates, type Side } from './merge-states.ts';
export { type Knot, monotoneCubic } from './monotone-cubic.ts';
export { type Begun, chartId, copyOf, isSameName, type NewChart, newChart } from './new-chart.ts';
export { KNOWN, type LineSpeed, type NextShot, nextShot, shotsToGo } from './next-shot.ts';
export { isMeasured, launchOf, numberAt, numberOrWhy, numberTo } from './numbers.ts';
export { stateOn } from './on-condition.ts';
export { type OrderChange, orderChange } from './order-change.ts';
export { type ColumnNumber, type Outlier, outliers } from './outliers.ts';
export { kickTo, PATTERNS, type Pattern, type PatternId } from './patterns.ts';
export { type AnchorNumber, interpolate } from './proportion.ts';
export { digestsOf, restore, revise, type Signature, slim } from './revise.ts';
export {
  type Column,
  computedLines,
  type EditorCell,
  type EditorRow,
  editorRows,
  rowStarts,
  solvedColumn,
} from './rows.ts';
export {
  type ChartDraft,
  type ChartRefusal,
  type ParsedChart,
  parseChart,
  parseChartDraft,
  readChart,
} from './schema.ts';
export { shiftAt, shiftFrom, unshifted } from './set-to-measured.ts';
export { sharedLines } from './shared.ts';
export {
  computeSheet,
  type Drift,
  type GivenLine,
  type GivenNumber,
  inDiamonds,
  isWhole,
  type Sheet,
  type SheetLine,
  type SheetNumber,
  type SheetRequest,
} from './sheet.ts';
export {
  type Arriving,
  arrivingOf,
  missOf,
  type TableShot,
  type Try,
} from './shot-arrival.ts';
export { type PackedSolved, packSolved, type Solved, solvedOf, unpackSolved } from './solved.ts';
export { startsFrom } from './starts.ts';
export {
  type Counting,
  type CountStop,
  countFrom,
  cueFor,
  type StepCue,
  stepCues,
} from './step-cue.ts';
export { t95 } from './student-t.ts';
export { type Candidate, type Ordered, suggestOrder } from './suggest.ts';
export {
  BANKS,
  THIN,
  VERDICTS,
  type Verdict,
  type VerdictKind,
  verdictOf,
  widthOf,
} from './verdict.ts';
