/**
 * A reader of tables in GitHub Flavored Markdown (spec 0.29, §4.10 tables extension): cells between
 * bars, blanks trimmed, a bar or a backslash escaped by a backslash.
 */

export function parseTable(text: string): string[][] {
  const rows = text.trimEnd().split('\n').map(cellsOf);
  const rule = rows[1];
  if (!rule?.every((cell) => /^:?-+:?$/.test(cell)) || rule.length !== rows[0]?.length) {
    throw new Error('no delimiter row');
  }
  return rows.filter((_, n) => n !== 1);
}

function cellsOf(line: string): string[] {
  const cells: string[] = [];
  let cell = '';
  for (const [part] of line.matchAll(/\\.|./gu)) {
    if (part === '|') {
      cells.push(cell.trim());
      cell = '';
    } else {
      cell += /^\\[\\|]$/.test(part) ? part.slice(1) : part;
    }
  }
  if (cells[0] !== '' || cell !== '') throw new Error(`no bars around ${line}`);
  return cells.slice(1);
}
