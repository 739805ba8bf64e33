import { Page } from './page.tsx';

export function RehearsalScreen() {
  return <Page title="Rehearsal">{null}</Page>;
}
