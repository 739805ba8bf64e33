/**
 * Lists every screen with its title, its place in the navigation, and its code, which loads when
 * the screen is first shown.
 */

import type { ComponentType } from 'preact';
import { patternOf } from '../charts/index.ts';
import { beside, lazy } from './parts/lazy.tsx';
import type { AppPorts } from './ports.ts';
import type { Screen } from './router.ts';
import { TodayScreen } from './today/screen.tsx';

type Name = Screen['name'];
/** The props that a screen may take: the ports, and the parameters of its address. */
type ScreenProps<N extends Name> = AppPorts & Extract<Screen, { readonly name: N }>;

export interface ScreenEntry<N extends Name = Name> {
  readonly title: string | ((at: Extract<Screen, { readonly name: N }>) => string);
  /** The screen that the navigation marks as the current one. Left out, it is the screen itself. */
  readonly parent?: Name;
  /** Whether the screen fills the page, without navigation and notices. */
  readonly alone?: boolean;
  readonly component: ComponentType<ScreenProps<N>>;
  /** Returns a key of the address. When the key changes, the screen starts afresh. */
  readonly key?: (at: ScreenProps<N>) => string;
}

const quiz = lazy(async () => (await import('./daily/screen.tsx')).Quiz);
/** Loads the quiz early, for a page that opens on the quiz. */
export const fetchQuiz = quiz.ahead;

const drills = lazy(async () => (await import('./practice/drills-screen.tsx')).DrillsScreen);

const SCREENS: { readonly [N in Name]: ScreenEntry<N> } = {
  today: { title: 'Today', component: TodayScreen },
  quiz: { title: 'Quiz', alone: true, component: quiz },
  ear: {
    title: 'By ear',
    parent: 'today',
    alone: true,
    component: lazy(async () => (await import('./practice/ear-screen.tsx')).EarScreen),
  },
  'look-up': {
    title: 'Look up',
    parent: 'today',
    component: lazy(async () => (await import('./look-up/screen.tsx')).LookUpScreen),
  },
  placement: {
    title: 'Placement',
    parent: 'today',
    component: lazy(async () => (await import('./practice/placement-screen.tsx')).PlacementScreen),
  },
  'table-day': {
    title: 'Table day',
    parent: 'today',
    component: lazy(async () => (await import('./table-day/screen.tsx')).TableDayScreen),
  },
  drills: { title: 'Drills', component: drills },
  drill: { title: 'Drill', parent: 'drills', component: drills },
  rehearsal: {
    title: 'Rehearsal',
    component: lazy(async () => (await import('./practice/rehearsal-screen.tsx')).RehearsalScreen),
  },
  'score-sheet': {
    title: 'Score sheet',
    parent: 'rehearsal',
    component: lazy(
      async () => (await import('./practice/score-sheet-screen.tsx')).ScoreSheetScreen,
    ),
    key: ({ id }) => id,
  },
  charts: {
    title: 'Charts',
    component: lazy(async () => (await import('./charts/screen.tsx')).ChartsScreen),
  },
  pattern: {
    title: ({ pattern }) => patternOf(pattern).name,
    parent: 'charts',
    component: lazy(async () => (await import('./pattern/screen.tsx')).PatternScreen),
    key: ({ pattern }) => pattern,
  },
  print: {
    title: 'Print',
    parent: 'charts',
    component: lazy(async () => (await import('./print/screen.tsx')).PrintScreen),
    key: ({ model, pattern }) => `${model.chart.value.document.id} ${pattern}`,
  },
  publish: {
    title: 'Publish',
    parent: 'charts',
    component: lazy(async () => (await import('./exchange/publish-screen.tsx')).PublishScreen),
  },
  receive: {
    title: 'Receive a chart',
    parent: 'charts',
    component: lazy(async () => (await import('./exchange/receive-screen.tsx')).ReceiveScreen),
    key: ({ code }) => `${code}`,
  },
  revisions: {
    title: 'Revisions',
    parent: 'charts',
    component: lazy(async () => (await import('./charts/revisions-screen.tsx')).RevisionsScreen),
    key: ({ pair }) => `${pair?.join()}`,
  },
  edit: {
    title: 'Edit the chart',
    parent: 'charts',
    component: lazy(async () => (await import('./edit/screen.tsx')).EditorScreen),
  },
  'new-chart': {
    title: 'New chart',
    parent: 'charts',
    component: lazy(async () => (await import('./charts/new-screen.tsx')).NewChartScreen),
  },
  levels: {
    title: 'Instructor’s view',
    parent: 'charts',
    component: lazy(async () => (await import('./edit/levels-screen.tsx')).LevelsScreen),
  },
  memory: {
    title: 'Memory',
    component: lazy(async () => (await import('./memory/screen.tsx')).MemoryScreen),
  },
  settings: {
    title: 'Settings',
    component: lazy(async () => (await import('./settings/screen.tsx')).SettingsScreen),
  },
};

/**
 * Returns the entry of a screen. Its component takes the props of exactly this screen, which the
 * type cannot say.
 */
export function entryOf(screen: Screen): ScreenEntry {
  return SCREENS[screen.name] as unknown as ScreenEntry;
}

export function titleOf(screen: Screen): string {
  const { title } = entryOf(screen);
  return typeof title === 'string' ? title : title(screen);
}

/** Asks the browser to keep the data, and warns if they may be lost. */
export const KeepingNotice = beside(
  async () => (await import('./settings/keeping/notice.tsx')).KeepingNotice,
);
