import { Page } from './page.tsx';
import type { AppProps } from './shell.tsx';

export function DrillsScreen(_props: AppProps) {
  return <Page title="Drills">{null}</Page>;
}
