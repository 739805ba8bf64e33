import { Page } from './page.tsx';

export function LookUpScreen() {
  return <Page title="Look up">{null}</Page>;
}
