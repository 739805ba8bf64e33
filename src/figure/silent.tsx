import type { ComponentChildren } from 'preact';

/** What is drawn for the eye alone: a screen reader is told in words elsewhere. */
export function Silent({ children }: { readonly children: ComponentChildren }) {
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a plain group never takes the focus
  return <g aria-hidden="true">{children}</g>;
}
