/** The repository's Markdown pages, taken apart as far as the tests of docs need it. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Page {
  /** From the root of the repository. */
  readonly path: string;
  readonly text: string;
}

/** Every Markdown page that is ours. */
export function allPages(): readonly Page[] {
  const root = readdirSync('.').filter((name) => name.endsWith('.md'));
  const inFolders = ['docs', '.github'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.md'))
      .map((name) => join(folder, name)),
  );
  return [...root, ...inFolders].map(pageAt);
}

export function pageAt(path: string): Page {
  return { path, text: readFileSync(path, 'utf8') };
}

/** A fenced block: three backticks, the language, the lines. */
const FENCED = /^```(\w*)\n(.*?)^```$/gms;
const INDENTED = /^(?: {4}.*\n)+/gm;
const SPAN = /`([^`\n]+)`/g;

export interface CodeBlock {
  readonly language: string;
  readonly code: string;
  /** What follows the block, up to the next heading or paragraph of prose. */
  readonly after: string;
}

export function codeBlocks({ text }: Page): readonly CodeBlock[] {
  return [...text.matchAll(FENCED)].map((match) => ({
    language: match[1] ?? '',
    code: match[2] ?? '',
    after: text.slice(match.index + match[0].length).trimStart(),
  }));
}

/** All that is set as code, in blocks and in lines. */
export function codeOf(page: Page): readonly string[] {
  const blocks = codeBlocks(page).map(({ code }) => code);
  const unfenced = page.text.replace(FENCED, '');
  const indented = unfenced.match(INDENTED) ?? [];
  const spans = [...unfenced.matchAll(SPAN)].map(([, code = '']) => code);
  return [...blocks, ...indented, ...spans];
}

function proseOf({ text }: Page): string {
  return text.replace(FENCED, '').replace(INDENTED, '').replace(SPAN, '$1');
}

/** The targets of links and pictures, as they are written. */
export function linksOf({ text }: Page): readonly string[] {
  const plain = text.replace(FENCED, '').replace(INDENTED, '').replace(SPAN, '');
  return [...plain.matchAll(/\]\(([^)\s]+)\)/g)].map(([, target = '']) => target);
}

/** The fragments by which GitHub addresses a page's headings. */
export function fragmentsOf(page: Page): ReadonlySet<string> {
  const seen = new Map<string, number>();
  const fragments = [...proseOf(page).matchAll(/^#{1,6} (.+)$/gm)].map(([, heading = '']) => {
    const plain = heading
      .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
      .replace(/(^|[\s(])[_*]+|[_*]+(?=$|[\s.,:)])/g, '$1')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .trim()
      .replaceAll(' ', '-');
    const count = seen.get(plain) ?? 0;
    seen.set(plain, count + 1);
    return count === 0 ? plain : `${plain}-${count}`;
  });
  return new Set(fragments);
}

/** Paragraphs of prose and items of lists: no headings, tables, comments or code. */
export function paragraphsOf(page: Page): readonly string[] {
  return proseOf(page)
    .split(/\n\n+|\n(?=\s*(?:- |\d+\. ))/)
    .map((paragraph) => paragraph.trim())
    .filter((paragraph) => paragraph !== '' && !/^(?:#|\||<!--)/.test(paragraph));
}

export function countWords(text: string): number {
  return text.split(/\s+/).filter(Boolean).length;
}
