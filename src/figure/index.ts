// The table and everything that is drawn on it.

export type { FigureAim, FigureMark, FigurePath, Tone } from './drawn.ts';
export { viewBox } from './frame.ts';
export { hatching } from './hatching.ts';
export { HoldFigure, holdPercent } from './hold-figure.tsx';
export { PlacesFigure } from './places-figure.tsx';
export { TableFigure, type TableFigureProps } from './table-figure.tsx';

// Pointing at the table or a ruler.

export type { Place } from './place.ts';
export { type PickerLine, PlacePicker } from './place-picker.tsx';
export { Ruler } from './ruler.tsx';

// Plots: errors, forecasts, and answers per day.

export { CalibrationPlot } from './plots/calibration.tsx';
export { CurvePlot } from './plots/curve.tsx';
export { ErrorPlot, type ErrorPlotProps } from './plots/errors.tsx';
export { LoadPlot } from './plots/load.tsx';
export type { PlotPoint } from './plots/plot.ts';
export { ShotPlot } from './plots/shots.tsx';
export { PlotTable } from './plots/table.tsx';
