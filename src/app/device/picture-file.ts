/**
 * Makes a picture file from a figure on the page: an SVG that needs no stylesheet, or its pixels.
 * Only the elements and attributes listed here are copied. So the file cannot contain a script, a
 * link, or a foreign object.
 */

const SHAPES = new Set([
  ...['g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polygon', 'polyline', 'text', 'tspan'],
]);
const GEOMETRY = [
  ...['d', 'points', 'transform', 'x', 'y', 'x1', 'y1', 'x2', 'y2', 'dx', 'dy'],
  ...['cx', 'cy', 'r', 'rx', 'ry', 'width', 'height', 'text-anchor'],
];
/** The stroke properties and their initial values (SVG 2, 13.5). Initial values are left out. */
const STROKE = {
  width: '1',
  dasharray: 'none',
  linecap: 'butt',
  linejoin: 'miter',
  opacity: '1',
} as const;
const NAMESPACE = 'http://www.w3.org/2000/svg';
/** The size of one unit on paper, in millimeters, in a figure that is not to scale. */
const UNIT = 1 / 3;
/** The scale of a table's figure that was not drawn for paper: 1:20. */
const SCALE = 20;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Picture {
  readonly svg: string;
  /** The width in millimeters. `height` is also in millimeters. */
  readonly width: number;
  readonly height: number;
}

/** Returns the figure as the page shows it, but in the colors of the light theme on white. */
export function pictureOf(figure: SVGSVGElement): Picture {
  const { dataset } = document.documentElement;
  const { theme } = dataset;
  // Colors depend only on the page's theme. The browser paints nothing until the theme is restored.
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

/**
 * The white space to the left and right of a number beside a rail, in millimeters on the table. This is
 * 2 mm on paper.
 */
const BESIDE = 40;
/**
 * The extra room at each end of a number, as a share of its width. A different viewer may draw wider
 * letters.
 */
const WIDER = 0.25;

/** Returns the view box, extended to anything drawn outside it, such as a long number beside a rail. */
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

/** Returns the scale of a table's figure, which has millimeters as units; null for other figures. */
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
  // A style places a rolling ball. Its pixels are the units of the picture.
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

/** Returns the color of a shape. Transparent shapes are only tap targets and not in the picture. */
function inkOf(paint: string): string {
  return paint === 'rgba(0, 0, 0, 0)' || paint === 'transparent' ? 'none' : paint;
}

function withoutPx(value: string): string {
  return value.replaceAll('px', '');
}

function tidy(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** The length of the longer side, in pixels. */
const LONG_SIDE = 2400;

/** Returns the picture as a PNG file. Rejects if the browser cannot draw it. */
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
    // The picture may only half cover the last row of pixels.
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
