import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseMultistatus } from '../../src/sync/multistatus.ts';

/** From RFC 4918 §9.1.5: an answer to PROPFIND of depth 1, shortened, with an unusual prefix. */
const RFC = `<?xml version="1.0" encoding="utf-8" ?>
<D:multistatus xmlns:D="DAV:">
  <D:response>
    <D:href>/container/</D:href>
    <D:propstat>
      <D:prop xmlns:R="http://ns.example.com/boxschema/">
        <R:bigbox><R:BoxType>Box type A</R:BoxType></R:bigbox>
        <D:resourcetype><D:collection/></D:resourcetype>
      </D:prop>
      <D:status>HTTP/1.1 200 OK</D:status>
    </D:propstat>
  </D:response>
  <D:response>
    <D:href>http://www.example.com/container/front%20page.html</D:href>
    <D:propstat>
      <D:prop><D:resourcetype/></D:prop>
      <D:status>HTTP/1.1 200 OK</D:status>
    </D:propstat>
  </D:response>
</D:multistatus>`;

const response = (href: string) =>
  `<d:multistatus xmlns:d='DAV:'><d:response><d:href>${href}</d:href></d:response></d:multistatus>`;
const ENTITY = '<!DOCTYPE m [<!ENTITY a "x"><!ENTITY b "&a;&a;&a;">]>';

describe('a listing', () => {
  it('is read as in RFC 4918', () => {
    expect(parseMultistatus(RFC)).toEqual([
      { path: ['container'], isFolder: true },
      { path: ['container', 'front page.html'], isFolder: false },
    ]);
  });

  it('is the same with another prefix, or with none', () => {
    const named = (tag: string, declared: string) =>
      RFC.replace(/(<\/?)D:/g, `$1${tag}`).replace('xmlns:D', declared);
    const expected = parseMultistatus(RFC);
    expect(parseMultistatus(named('', 'xmlns'))).toEqual(expected);
    expect(parseMultistatus(named('lp1:', 'xmlns:lp1'))).toEqual(expected);
    expect(parseMultistatus(named('lp1:', 'xmlns:other'))).toBeNull();
  });

  it('may have XML’s own entities and no others', () => {
    expect(parseMultistatus(response('/a&amp;b&#x2f;c&#47;d'))).toEqual([
      { path: ['a&b', 'c', 'd'], isFolder: false },
    ]);
    for (const href of ['/&a;', '/&', '/&amp', '/&#xffffffff;', '/&__proto__;', '/&toString;'])
      expect(parseMultistatus(response(href)), href).toBeNull();
  });

  it.each([
    ['declares entities', ENTITY + response('/&b;')],
    ['names a document type', `<!DOCTYPE d SYSTEM "http://evil.example/">${response('/a')}`],
    ['has a document type inside', response(`/a${ENTITY}`)],
    ['is a page', '<!doctype html><html><body>It works!</body></html>'],
    ['is JSON', '{"files":[]}'],
    ['is nothing', ''],
    ['is cut off', RFC.slice(0, 400)],
    ['crosses its tags', RFC.replace('</D:prop>', '</D:propstat>')],
    ['has two roots', response('/a') + response('/b')],
    ['is of another namespace', RFC.replace('DAV:', 'http://evil.example/')],
    ['is nested beyond reason', `${'<d:a xmlns:d="DAV:">'.repeat(10_000)}`],
    ['has an address that cannot be decoded', response('/%zz')],
    ['has an instruction', response('/a').replace('<d:href>', '<?php x?><d:href>')],
  ])('that %s is refused', (_, text) => {
    expect(parseMultistatus(text)).toBeNull();
  });

  it('is read or refused, whatever the text', () => {
    const bits = [
      '<',
      '>',
      '/',
      'd:href',
      'd:response',
      ' xmlns:d="DAV:"',
      '&',
      ';',
      '"',
      '!--',
      '--',
      'x',
      ' ',
      '=',
      '?',
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...bits), { maxLength: 60 }), (parts) => {
        const read = parseMultistatus(`<d:multistatus xmlns:d="DAV:">${parts.join('')}`);
        expect(read === null || Array.isArray(read)).toBe(true);
      }),
      { numRuns: 2000 },
    );
    // Long runs on which a careless regular expression would backtrack.
    for (const long of [' a'.repeat(50_000), ' a="'.repeat(50_000), '<'.repeat(100_000)])
      expect(parseMultistatus(`<d:multistatus xmlns:d="DAV:"${long}`)).toBeNull();
  });
});
