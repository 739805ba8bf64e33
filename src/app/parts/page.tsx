import type { ComponentChildren } from 'preact';

/** The frame of every screen except the quiz. */
export function Page(props: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <main class="page">
      <h1>{props.title}</h1>
      {props.children}
    </main>
  );
}
