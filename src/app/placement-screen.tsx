import { Page } from './page.tsx';
import type { AppProps } from './shell.tsx';

export function PlacementScreen(_props: AppProps) {
  return <Page title="Placement">{null}</Page>;
}
