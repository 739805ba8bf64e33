/** Balls sent at a pocket, for tests of its jaws. */
import {
  type Ball,
  CLUB_CLOTH,
  type PocketName,
  pocketMouth,
  pocketShape,
  type Setting,
  TABLES,
  type Table,
} from '../../src/table/index.ts';

export const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };

export interface Sent {
  /** Angle from straight in, radians; positive from the mouth's normal towards its second tip. */
  readonly angle: number;
  /** From the middle of the mouth to the path, across the path, meters. */
  readonly offset: number;
  /** m/s at the start. */
  readonly speed: number;
  /** 1 rolls, 0 slides without spin. */
  readonly roll?: number;
  readonly side?: number;
  /** Metres of the path from the start to the middle of the mouth. */
  readonly distance?: number;
}

export function ballAt(table: Table, pocket: PocketName, sent: Sent): Ball {
  const { mouth, jaws } = pocketShape(table, pocket);
  const { angle, offset, speed, roll = 1, side = 0, distance = 0.2 } = sent;
  const middle = pocketMouth(table, pocket);
  const sign = Math.sign(
    (jaws[1].tip.x - jaws[0].tip.x) * -mouth.ny + (jaws[1].tip.y - jaws[0].tip.y) * mouth.nx,
  );
  const across = { x: -mouth.ny * sign, y: mouth.nx * sign };
  const turned = (c: number, s: number) => ({
    x: c * mouth.nx + s * across.x,
    y: c * mouth.ny + s * across.y,
  });
  const direction = turned(Math.cos(angle), Math.sin(angle));
  const beside = turned(-Math.sin(angle), Math.cos(angle));
  const vx = speed * direction.x;
  const vy = speed * direction.y;
  return {
    x: middle.x - distance * direction.x + offset * beside.x,
    y: middle.y - distance * direction.y + offset * beside.y,
    vx,
    vy,
    wx: -roll * vy,
    wy: roll * vx,
    wz: sign * side * speed,
  };
}

export function isOnCloth(table: Table, { x, y }: Ball): boolean {
  const r = table.ballRadius;
  return x >= r && y >= r && x <= table.length - r && y <= table.width - r;
}
