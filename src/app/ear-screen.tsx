import { Page } from './page.tsx';

export function EarScreen() {
  return <Page title="By ear">{null}</Page>;
}
