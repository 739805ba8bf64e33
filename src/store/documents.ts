/** Charts and settings as they are stored. */

import { type ChartDocument, parseChart } from '../charts/index.ts';
import { CHARTS } from './charts.ts';
import { type Database, get } from './database.ts';
import { recordOf } from './record.ts';
import { isNewerSettings, parseSettings, type Settings } from './settings.ts';

export const SETTINGS = 'settings';

export interface Documents {
  /**
   * Charts and settings that this version cannot read. They are left where they are, too; and so is
   * a rehearsal, of which `loadRehearsal` tells.
   */
  readonly unreadDocuments: number;
  readonly charts: readonly ChartDocument[];
  readonly settings: Settings;
}

export async function loadDocuments(db: Database): Promise<Documents> {
  const raw = Object.values(recordOf(await get<unknown>(CHARTS, db.documents)));
  const charts = raw.map(parseChart).filter((chart) => chart !== null);
  const settings = await get<unknown>(SETTINGS, db.documents);
  const newer = isNewerSettings(settings) ? 1 : 0;
  const unreadDocuments = raw.length - charts.length + newer;
  return { unreadDocuments, charts, settings: parseSettings(settings) };
}
