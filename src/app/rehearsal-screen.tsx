import { Page } from './page.tsx';
import type { AppProps } from './shell.tsx';

export function RehearsalScreen(_props: AppProps) {
  return <Page title="Rehearsal">{null}</Page>;
}
