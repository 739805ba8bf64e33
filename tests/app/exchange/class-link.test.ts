import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { pathIn } from '../../../src/app/device/published.ts';
import { classLink, classPathOf, isOwnDevice } from '../../../src/app/exchange/class-link.ts';

describe('the class link', () => {
  beforeEach(() =>
    vi.stubGlobal('location', { origin: 'https://club.example', pathname: '/throughline/' }),
  );
  afterEach(() => vi.unstubAllGlobals());

  it('is this page’s address with the file beside the app, without a revision', () => {
    const link = classLink('harbour-lane-9ft');
    expect(link).toBe(
      'https://club.example/throughline/#/receive/file/charts/harbour-lane-9ft.json',
    );
    expect(pathIn(link.replace(/^.*#\/receive\//, ''))).toBe(classPathOf('harbour-lane-9ft'));
  });
});

/** RFC 6761 (localhost), RFC 1122 (127/8), RFC 4291 (::1), as a URL writes them. */
describe('a page served by the player’s own device', () => {
  it.each([
    'http://localhost:4173/',
    'http://LOCALHOST/',
    'http://app.localhost/',
    'http://127.0.0.1:8080/',
    'http://127.1.2.3/',
    'http://[::1]:4173/',
  ])('%s is told', (url) => {
    expect(isOwnDevice(new URL(url).hostname)).toBe(true);
  });

  it.each([
    'https://club.example/',
    'https://localhost.club.example/',
    'http://192.168.1.20:4173/',
    'http://127.0.0.1.example/',
    'http://[2001:db8::1]/',
  ])('%s is another host', (url) => {
    expect(isOwnDevice(new URL(url).hostname)).toBe(false);
  });
});
