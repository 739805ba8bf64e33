/** Names, numbers, texts and shapes known to have broken programs. */

export const KEYS = [
  ...['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'valueOf', 'toJSON'],
  ...['then', 'length', '', '0', '-1', ' ', '\u0000', '\ud800', 'version', 'id', 'kind', 'type'],
];

export const NUMBERS = [
  ...[0, -0, 1, -1, 2, 0.1, -0.1, 1e-7, 5e-324, 1.5, 99, 100, 255, 256, 500, 501, 4294967295],
  ...[4294967296, 2 ** 31, 2 ** 53 - 1, 2 ** 53, -(2 ** 53), 1e15, 1e21, 1.7976931348623157e308],
  ...[Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN],
];

export const TEXTS = [
  ...['', ' ', '\u0000', '\ufeff', '\ud800', '\udc00', '\u202e', '\u200b', '\u2028', '\r', '\r\n'],
  ...[
    'NaN',
    'Infinity',
    '-Infinity',
    '1e999',
    '1e5',
    '0x10',
    '0b11',
    '1_000',
    '٣',
    '１',
    '−1',
    '+',
  ],
  ...['1,5', '1.5', ',', '.', '1..2', '1,000.5', '-', '--1', '00000000', '99999999', '.0000'],
  ...[
    '__proto__',
    'constructor',
    'null',
    'undefined',
    'true',
    '[object Object]',
    '%00',
    '%',
    '../..',
  ],
  ...[
    '<img src=x onerror=alert(1)>',
    '"><script>alert(1)</script>',
    'javascript:alert(1)',
    '{{1}}',
  ],
  ...['=1+1', '@SUM(A1)', '\t=1', '\r=1', "'=1", '+1', '-1+1', '😀', 'e\u0301', 'ﷺ', '👩‍👩‍👧‍👦'],
];

/** JSON texts that no value of a program produces. */
export const JSON_TEXTS = [
  ...[
    '1e999',
    '-1e999',
    '1e-999',
    '-0',
    '0.1e1',
    '123456789012345678901234567890',
    '9'.repeat(400),
  ],
  ...['{"__proto__":{"polluted":1}}', '{"constructor":{"prototype":{"polluted":1}}}', '[]', '{}'],
  ...[
    '"\\u0000"',
    '"\\ud800"',
    '"__proto__"',
    'null',
    'true',
    'false',
    '""',
    '01',
    '+1',
    'NaN',
    "'a'",
  ],
  ...['[[],[],[]]', '{"a":1,"a":2}', '[,]', '{"a"}', '"', '\\', '/*x*/1', '\ufeff1', '[null,null]'],
];

export function nested(depth: number, asList: boolean): unknown {
  let value: unknown = null;
  for (let n = 0; n < depth; n++) value = asList ? [value] : { a: value };
  return value;
}

export function nestedText(depth: number, asList: boolean): string {
  return asList
    ? `${'['.repeat(depth)}${']'.repeat(depth)}`
    : `${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`;
}
