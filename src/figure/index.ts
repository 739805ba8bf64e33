export type { Frame } from './frame.ts';
export {
  type FigureAim,
  type FigureMark,
  type FigurePath,
  TableFigure,
  type TableFigureProps,
  type Tone,
} from './table-figure.tsx';
