/** The elements that a pure component draws, in order, without a browser. */

import type { ComponentChildren, VNode } from 'preact';

export interface Drawn {
  readonly tag: string;
  readonly props: Readonly<Record<string, unknown>>;
  readonly text: string;
}

/** All elements below a node; calls components without hooks as the renderer would. */
export function drawnBy(node: ComponentChildren): readonly Drawn[] {
  if (Array.isArray(node)) return node.flatMap(drawnBy);
  if (typeof node !== 'object' || node === null || !('type' in node)) return [];
  const { type, props } = node as VNode<{ children?: ComponentChildren }>;
  if (typeof type === 'function') {
    const component = type as (props: unknown) => ComponentChildren;
    return drawnBy(component(props));
  }
  const below = drawnBy(props.children);
  const own = { tag: type, props: props as Record<string, unknown>, text: textOf(props.children) };
  return [own, ...below];
}

function textOf(node: ComponentChildren): string {
  if (Array.isArray(node)) return node.map(textOf).join('');
  return typeof node === 'string' || typeof node === 'number' ? String(node) : '';
}
