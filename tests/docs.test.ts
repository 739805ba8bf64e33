import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

describe('README', () => {
  it('opens with the job in one paragraph, and names the two commands', () => {
    const text = readFileSync('README.md', 'utf8');
    const [title, paragraph] = text.split('\n\n');
    expect(title).toBe('# Throughline');
    expect(paragraph).toMatch(/^Throughline .*aim through.*\.$/s);
    expect(text).toContain('npm ci && npm start');
    expect(text).toContain('npm ci && npm test');
  });
});
