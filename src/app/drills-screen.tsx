import { Page } from './page.tsx';

export function DrillsScreen() {
  return <Page title="Drills">{null}</Page>;
}
