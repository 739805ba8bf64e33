/** The map as an SVG with its own background, for light and dark pages. */

import { CHIP, type Chip, TITLE } from './measure.ts';
import { type Box, type Point, placed } from './places.ts';
import { ROOT, type Room } from './rooms.ts';

/** Readable at this width, pixels. */
const WIDTH = 1000;
const TOP = 30;
const FOOT = 62;

const STYLE = `
    text { font: 13px system-ui, -apple-system, "Segoe UI", "DejaVu Sans", sans-serif; fill: #2b2a26 }
    .name { font-size: 16px; font-weight: 650 }
    .caption, .foot { fill: #5d5a52 }
    .ground { fill: #faf7f0 }
    .room { fill: #fffdf8; stroke: #8d887b; stroke-width: 1.25 }
    .pure { fill: #e4efe6; stroke: #5f8a6b }
    .part { fill: #ffffff; stroke: #b9b3a5 }
    .pure-part { fill: #f6fbf7; stroke: #8fb399 }
    .arrow { fill: none; stroke: #6f6a5e; stroke-width: 1.5 }
    .head { fill: #6f6a5e }
    @media (prefers-color-scheme: dark) {
      text { fill: #ece8dd }
      .caption, .foot { fill: #b3aea1 }
      .ground { fill: #1d1c19 }
      .room { fill: #2a2924; stroke: #858070 }
      .pure { fill: #20322a; stroke: #6b9b7b }
      .part { fill: #35332d; stroke: #6d685b }
      .pure-part { fill: #2a4034; stroke: #577f66 }
      .arrow { stroke: #a39d8f }
      .head { fill: #a39d8f }
    }
  `;

const NOTES = [
  'An arrow points from a room to one that it imports. Arrows that follow from others are left out.',
  'In a room, a folder imports only folders in the rows below it.',
] as const;

export function drawMap(rooms: readonly Room[]): string {
  const { boxes, arrows, bottom } = placed(rooms, WIDTH, TOP);
  const height = bottom + FOOT + 24;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img" aria-labelledby="title desc">`,
    '  <title id="title">The rooms of src and what they import</title>',
    `  <desc id="desc">${describe(rooms)}</desc>`,
    `  <style>${STYLE}</style>`,
    '  <marker id="head" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" orient="auto">',
    '    <path class="head" d="M0 0 8 4 0 8z"/>',
    '  </marker>',
    `  <rect class="ground" width="${WIDTH}" height="${height}"/>`,
    ...arrows.map(
      (points) => `  <path class="arrow" marker-end="url(#head)" d="${curve(points)}"/>`,
    ),
    ...boxes.flatMap(drawBox),
    ...legend(bottom + 34),
    '</svg>',
  ];
  return `${lines.join('\n')}\n`;
}

function describe(rooms: readonly Room[]): string {
  const sentences = [...rooms].reverse().map(({ name, imports, parts }) => {
    const folders = parts.length === 0 ? '' : ` (${parts.flat().join(', ')})`;
    return imports.length === 0
      ? `${name}${folders} imports no other room`
      : `${name}${folders} imports ${imports.join(' and ')}`;
  });
  return `${sentences.join('; ')}.`;
}

/** Straight within a lane, an S between floors. */
function curve([first, ...rest]: readonly Point[]): string {
  let { x, y } = first as Point;
  const parts = [`M${tidy(x)} ${tidy(y)}`];
  for (const to of rest) {
    const middle = tidy((y + to.y) / 2);
    parts.push(
      Math.abs(to.x - x) < 0.5
        ? `V${tidy(to.y)}`
        : `C${tidy(x)} ${middle} ${tidy(to.x)} ${middle} ${tidy(to.x)} ${tidy(to.y)}`,
    );
    ({ x, y } = to);
  }
  return parts.join('');
}

function drawBox({ room, x, y, width, height, caption, chips }: Box): readonly string[] {
  const middle = tidy(x + width / 2);
  const line = (text: string, n: number, name: string): string =>
    `  <text class="${name}" x="${middle}" y="${y + 27 + n}" text-anchor="middle">${text}</text>`;
  return [
    `  <rect class="room${room.pure ? ' pure' : ''}" x="${x}" y="${y}" width="${width}" height="${height}" rx="8"/>`,
    line(room.name, 0, 'name'),
    ...caption.map((text, n) => line(text, TITLE - 4 + n * 17, 'caption')),
    ...chips.flatMap((chip) => drawChip(chip, x, y, room.pure)),
  ];
}

function drawChip({ name, x, y, width }: Chip, left: number, top: number, pure: boolean) {
  const [at, down] = [tidy(left + x), tidy(top + y)];
  return [
    `  <rect class="${pure ? 'pure-part' : 'part'}" x="${at}" y="${down}" width="${tidy(width)}" height="${CHIP}" rx="5"/>`,
    `  <text x="${tidy(left + x + width / 2)}" y="${down + 16.5}" text-anchor="middle">${name}</text>`,
  ];
}

function legend(y: number): readonly string[] {
  const note = (text: string, n: number): string =>
    `  <text class="foot" x="36" y="${y + n * 19}">${text}</text>`;
  return [
    `  <rect class="pure" x="36" y="${y - 11}" width="22" height="14" rx="4"/>`,
    `  <text class="foot" x="66" y="${y}">pure: compiles without browser types; uses no clock and no random numbers. Only ${ROOT} passes them in.</text>`,
    ...NOTES.map((text, n) => note(text, n + 1)),
  ];
}

function tidy(value: number): number {
  return Math.round(value * 10) / 10;
}
