/** Formats tables of cells as text. */

export const FORMATS = ['json', 'csv', 'md'] as const;
export type Format = (typeof FORMATS)[number];

export type Cell = string | number | boolean | null;

export interface Grid {
  readonly head: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/**
 * Formats records as JSON with one element per line, so that people and line-based tools can read
 * and compare it.
 */
export function formatJson(records: readonly unknown[]): string {
  const lines = records.map((record) => `  ${JSON.stringify(record)}`);
  return lines.length === 0 ? '[]\n' : `[\n${lines.join(',\n')}\n]\n`;
}

/** Formats a grid as CSV with a header (RFC 4180). Lines end in CRLF; null is an empty field. */
export function formatCsv({ head, rows }: Grid): string {
  return [head, ...rows].map((row) => `${row.map(csvField).join(',')}\r\n`).join('');
}

function csvField(cell: Cell): string {
  const text = cell === null ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Formats a grid as a table in GitHub Flavored Markdown. Null is a dash. */
export function formatMarkdown({ head, rows }: Grid): string {
  const lines = [head, head.map(() => '---'), ...rows];
  return lines.map((row) => `| ${row.map(markdownCell).join(' | ')} |\n`).join('');
}

function markdownCell(cell: Cell): string {
  const text = cell === null ? '–' : String(cell);
  return text
    .replaceAll('\\', '\\\\')
    .replaceAll('|', '\\|')
    .replace(/\s*[\r\n]+\s*/g, ' ');
}
