export type { FigureAim, FigureMark, FigureObject, FigurePath, Tone } from './drawn.ts';
export type { Frame } from './frame.ts';
export { snap } from './pointing.ts';
export type { Pointing } from './rail-slider.tsx';
export { TableFigure, type TableFigureProps } from './table-figure.tsx';
