export type { FigureAim, FigureMark, FigureObject, FigurePath, Tone } from './drawn.ts';
export { type Box, type Frame, type Spot, viewBox } from './frame.ts';
export { hatching } from './hatching.ts';
export {
  HoldFigure,
  type HoldFigureProps,
  type HoldPlace,
  holdPercent,
} from './hold-figure.tsx';
export { type Place, placeAt } from './place.ts';
export { type PickerLine, PlacePicker, type PlacePickerProps } from './place-picker.tsx';
export { PlacesFigure, type PlacesFigureProps } from './places-figure.tsx';
export {
  type CalibrationBin,
  CalibrationPlot,
  type CalibrationPlotProps,
} from './plots/calibration.tsx';
export { CurvePlot, type CurvePlotProps, type CurvePoint } from './plots/curve.tsx';
export { ErrorPlot, type ErrorPlotProps } from './plots/errors.tsx';
export { LoadPlot, type LoadPlotProps } from './plots/load.tsx';
export type { PlotPoint } from './plots/plot.ts';
export { ShotPlot, type ShotPlotProps } from './plots/shots.tsx';
export { PlotTable } from './plots/table.tsx';
export { snap } from './pointing.ts';
export type { Pointing } from './rail-slider.tsx';
export { Ruler, type RulerProps } from './ruler.tsx';
export { TableFigure, type TableFigureProps } from './table-figure.tsx';
