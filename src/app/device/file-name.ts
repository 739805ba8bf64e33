/**
 * Returns a file name of at most 80 letters a to z, digits, and hyphens, which is safe on any system.
 */
export function fileNameOf(...parts: readonly string[]): string {
  const plain = parts
    .join(' ')
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 80)
    .replace(/-$/, '');
  return plain === '' ? 'figure' : plain;
}
