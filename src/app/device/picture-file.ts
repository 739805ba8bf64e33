/**
 * A figure of the page as a picture file: an SVG that needs no stylesheet, or its pixels. Only the
 * elements and attributes listed here are copied, so that the file can contain nothing else: no
 * script, no link, no foreign object.
 */

const SHAPES = new Set([
  ...['g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polygon', 'polyline', 'text', 'tspan'],
]);
const GEOMETRY = [
  ...['d', 'points', 'transform', 'x', 'y', 'x1', 'y1', 'x2', 'y2', 'dx', 'dy'],
  ...['cx', 'cy', 'r', 'rx', 'ry', 'width', 'height', 'text-anchor'],
];
/** Stroke properties with their initial values, which are left out (SVG 2, 13.5). */
const STROKE = {
  width: '1',
  dasharray: 'none',
  linecap: 'butt',
  linejoin: 'miter',
  opacity: '1',
} as const;
const NAMESPACE = 'http://www.w3.org/2000/svg';
/** Millimetres of paper for a unit of a figure that is not to scale. */
const UNIT = 1 / 3;
/** Scale of a table's figure that was not drawn for paper: 1:20. */
const SCALE = 20;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Picture {
  readonly svg: string;
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
}

/** The figure as the page shows it, but in the colors of the light theme on white. */
export function pictureOf(figure: SVGSVGElement): Picture {
  const { dataset } = document.documentElement;
  const { theme } = dataset;
  // Colors depend on the page's theme alone. The browser paints nothing before it is restored.
  dataset.theme = 'light';
  try {
    return drawn(figure);
  } finally {
    if (theme === undefined) delete dataset.theme;
    else dataset.theme = theme;
  }
}

function drawn(figure: SVGSVGElement): Picture {
  const box = boxOf(figure);
  const scale = scaleOf(figure);
  const unit = scale === null ? UNIT : 1 / scale;
  const [width, height] = [box.width * unit, box.height * unit];
  const file = document.implementation.createDocument(NAMESPACE, 'svg');
  const root = file.documentElement;
  root.setAttribute('viewBox', [box.x, box.y, box.width, box.height].map(tidy).join(' '));
  root.setAttribute('width', `${tidy(width)}mm`);
  root.setAttribute('height', `${tidy(height)}mm`);
  root.setAttribute('font-family', 'sans-serif');
  appendText(root, 'title', figure.getAttribute('aria-label') ?? 'Figure');
  if (scale !== null) appendText(root, 'desc', `Scale 1:${scale}.`);
  const ground = root.appendChild(file.createElementNS(NAMESPACE, 'rect'));
  for (const side of ['x', 'y', 'width', 'height'] as const) {
    ground.setAttribute(side, tidy(box[side]));
  }
  ground.setAttribute('fill', '#ffffff');
  copyInto(root, figure);
  const text = new XMLSerializer().serializeToString(file);
  return { svg: `<?xml version="1.0" encoding="UTF-8"?>\n${text}\n`, width, height };
}

/** White space left and right of a number beside a rail, millimeters of the table: 2 mm of paper. */
const BESIDE = 40;
/** Room at either end of a number for the wider letters of another viewer, as a part of its width. */
const WIDER = 0.25;

/** The view box, extended to what is drawn beyond it, such as a long number beside a rail. */
function boxOf(figure: SVGSVGElement): Box {
  const own = figure.viewBox.baseVal;
  const numbers = figure.querySelectorAll<SVGTextElement>('.counts text, .mark text');
  const beside = [...numbers].map((number) => {
    const { x, y, width, height } = number.getBBox();
    const white = BESIDE + WIDER * width;
    return { x: x - white, y, width: width + 2 * white, height };
  });
  const all = [own, figure.getBBox(), ...beside];
  const x = Math.min(...all.map((one) => one.x));
  const y = Math.min(...all.map((one) => one.y));
  return {
    x,
    y,
    width: Math.max(...all.map((one) => one.x + one.width)) - x,
    height: Math.max(...all.map((one) => one.y + one.height)) - y,
  };
}

/** The scale of a table's figure, whose unit is a millimeter; null for any other figure. */
function scaleOf(figure: SVGSVGElement): number | null {
  if (!figure.classList.contains('table-figure')) return null;
  const given = figure.closest<HTMLElement>('[data-scale]')?.dataset.scale;
  return given === undefined ? SCALE : Number(given);
}

function appendText(root: Element, name: 'title' | 'desc', words: string): void {
  const element = root.ownerDocument.createElementNS(NAMESPACE, name);
  element.textContent = words;
  root.append(element);
}

function copyInto(to: Element, from: Element): void {
  for (const child of from.children) {
    if (!SHAPES.has(child.localName)) continue;
    const style = getComputedStyle(child);
    if (style.display === 'none') continue;
    const copy = to.ownerDocument.createElementNS(NAMESPACE, child.localName);
    copyGeometry(copy, child);
    if (child.localName !== 'g') paint(copy, style);
    if (child.localName === 'text' || child.localName === 'tspan') letter(copy, child, style);
    copyInto(copy, child);
    to.append(copy);
  }
}

function copyGeometry(copy: Element, from: Element): void {
  for (const name of GEOMETRY) {
    const value = from.getAttribute(name);
    if (value !== null) copy.setAttribute(name, value);
  }
  // A style places a rolling ball, in pixels, which are the units of the picture.
  const moved = (from as SVGElement).style.transform;
  if (moved) copy.setAttribute('transform', moved.replaceAll('px', '').replaceAll(', ', ' '));
}

function paint(copy: Element, style: CSSStyleDeclaration): void {
  copy.setAttribute('fill', inkOf(style.fill));
  if (style.fillOpacity !== '1') copy.setAttribute('fill-opacity', style.fillOpacity);
  const stroke = inkOf(style.stroke);
  if (stroke === 'none') return;
  copy.setAttribute('stroke', stroke);
  for (const [part, initial] of Object.entries(STROKE)) {
    const value = withoutPx(style.getPropertyValue(`stroke-${part}`));
    if (value !== initial) copy.setAttribute(`stroke-${part}`, value);
  }
}

function letter(copy: Element, from: Element, style: CSSStyleDeclaration): void {
  copy.setAttribute('font-size', withoutPx(style.fontSize));
  copy.setAttribute('font-weight', style.fontWeight);
  if (from.children.length === 0) copy.textContent = from.textContent;
}

/** Transparent shapes are targets for taps: not part of the picture. */
function inkOf(paint: string): string {
  return paint === 'rgba(0, 0, 0, 0)' || paint === 'transparent' ? 'none' : paint;
}

function withoutPx(value: string): string {
  return value.replaceAll('px', '');
}

function tidy(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** Pixels on the longer side. */
const LONG_SIDE = 2400;

/** Rejects if the browser cannot draw the picture. */
export async function pixelsOf({ svg, width, height }: Picture): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    const finer = LONG_SIDE / Math.max(width, height);
    canvas.width = Math.round(width * finer);
    canvas.height = Math.round(height * finer);
    const pen = canvas.getContext('2d');
    if (!pen) throw new Error('this browser does not draw');
    // The picture may cover the last row of pixels by half.
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await blobOf(canvas);
  } finally {
    URL.revokeObjectURL(url);
  }
}

function blobOf(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => {
      if (blob) resolve(blob);
      else reject(new Error('it is too large for this device'));
    }, 'image/png');
  });
}
