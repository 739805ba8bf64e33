import { Page } from './page.tsx';
import type { AppProps } from './shell.tsx';

export function LookUpScreen(_props: AppProps) {
  return <Page title="Look up">{null}</Page>;
}
