import { Page } from './page.tsx';
import type { AppProps } from './shell.tsx';

export function EarScreen(_props: AppProps) {
  return <Page title="By ear">{null}</Page>;
}
