import type { TableSize } from '../../table/index.ts';

export const TABLE_NAMES: Readonly<Record<TableSize, string>> = {
  '9ft': '9 ft',
  pro8ft: '8 ft pro',
  csi8ft: '8 ft league',
  '8ft': '8 ft',
  '7ft': '7 ft',
};
