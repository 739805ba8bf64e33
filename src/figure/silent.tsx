import type { ComponentChildren } from 'preact';

/** Hides a drawing from screen readers, which get the words elsewhere. */
export function Silent({ children }: { readonly children: ComponentChildren }) {
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a plain group never takes the focus
  return <g aria-hidden="true">{children}</g>;
}
