import { ImpossibleDate } from '../../store/index.ts';

/** Says why something could not be written, and what the player can do. */
export function notSaved(error: unknown): string {
  const [why, remedy] = reasonOf(error);
  return `Not saved: ${why}. Nothing is lost here; ${remedy}.`;
}

function reasonOf(error: unknown): readonly [why: string, remedy: string] {
  if (error instanceof DOMException && error.name === 'QuotaExceededError')
    return ['the device has no room left', 'make room and press again'];
  if (error instanceof ImpossibleDate)
    return ['the device’s clock shows an impossible date', 'set it right and press again'];
  return ['the browser refused to write it', 'press again, or open the page anew'];
}
