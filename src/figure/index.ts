export {
  type CalibrationBin,
  CalibrationPlot,
  type CalibrationPlotProps,
} from './calibration-plot.tsx';
export { CurvePlot, type CurvePlotProps, type CurvePoint } from './curve-plot.tsx';
export type { FigureAim, FigureMark, FigureObject, FigurePath, Tone } from './drawn.ts';
export { ErrorPlot, type ErrorPlotProps } from './error-plot.tsx';
export { type Box, type Frame, type Spot, viewBox } from './frame.ts';
export { hatching } from './hatching.ts';
export {
  HoldFigure,
  type HoldFigureProps,
  type HoldPlace,
  holdPercent,
} from './hold-figure.tsx';
export { LoadPlot, type LoadPlotProps } from './load-plot.tsx';
export { type Place, placeAt } from './place.ts';
export { type PickerLine, PlacePicker, type PlacePickerProps } from './place-picker.tsx';
export { PlacesFigure, type PlacesFigureProps } from './places-figure.tsx';
export type { PlotPoint } from './plot.ts';
export { PlotTable } from './plot-table.tsx';
export { snap } from './pointing.ts';
export type { Pointing } from './rail-slider.tsx';
export { Ruler, type RulerProps } from './ruler.tsx';
export { ShotPlot, type ShotPlotProps } from './shot-plot.tsx';
export { TableFigure, type TableFigureProps } from './table-figure.tsx';
