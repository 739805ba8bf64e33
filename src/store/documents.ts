/** Loads the stored charts and settings, and saves settings. */

import { type ChartDocument, parseChart } from '../charts/index.ts';
import { CHARTS } from './charts.ts';
import { type Database, get, update } from './database.ts';
import { recordOf } from './record.ts';
import {
  DEFAULT_SETTINGS,
  isNewerSettings,
  parseSettings,
  type Settings,
  type SettingsChange,
  withChange,
} from './settings.ts';

export const SETTINGS = 'settings';

export interface Documents {
  /**
   * How many stored documents this version cannot read: charts, plus one if the settings are newer.
   * They stay where they are. An unreadable rehearsal does not count; `loadRehearsal` reports it.
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

export async function saveSettings(db: Database, change: SettingsChange): Promise<Settings> {
  let saved = DEFAULT_SETTINGS;
  await update(
    SETTINGS,
    (old) => {
      if (isNewerSettings(old)) throw new Error('the settings are those of a newer Throughline');
      saved = withChange(old, change);
      return saved;
    },
    db.documents,
  );
  return saved;
}
