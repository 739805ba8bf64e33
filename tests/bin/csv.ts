/**
 * A reader of comma-separated values, written only from the grammar of RFC 4180 §2: records end in
 * CRLF; a field is in double quotes, with its own quotes doubled, or plain text without comma, quote,
 * CR or LF.
 */

export function parseCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let rest = text;
  while (rest !== '') {
    const escaped = /^"((?:[^"]|"")*)"(,|\r\n)/.exec(rest);
    const field = escaped ?? /^([^",\r\n]*)(,|\r\n)/.exec(rest);
    if (!field) throw new Error(`no field at ${JSON.stringify(rest.slice(0, 40))}`);
    const [whole, inner = '', end] = field;
    row.push(escaped ? inner.replaceAll('""', '"') : inner);
    rest = rest.slice(whole.length);
    if (end === '\r\n') {
      rows.push(row);
      row = [];
    }
  }
  if (row.length > 0) throw new Error('the last record has no end');
  return rows;
}
