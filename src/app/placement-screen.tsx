import { Page } from './page.tsx';

export function PlacementScreen() {
  return <Page title="Placement">{null}</Page>;
}
