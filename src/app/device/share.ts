/** Shares a link or a file in the ways that the browser offers. */

/**
 * The result of sharing. 'shared' means by the device's share menu, and 'copied' means to the
 * clipboard. 'left' means that the player canceled. 'by hand' means that the browser can neither
 * share nor copy, so the screen shows the link.
 */
export type Shared = 'shared' | 'copied' | 'left' | 'by hand';

export async function shareLink(title: string, url: string): Promise<Shared> {
  const shared = await shareByDevice({ title, url });
  return shared ?? copyLink(url);
}

export async function copyLink(url: string): Promise<Extract<Shared, 'copied' | 'by hand'>> {
  const { clipboard } = navigator as Partial<Navigator>;
  try {
    if (!clipboard) return 'by hand';
    await clipboard.writeText(url);
    return 'copied';
  } catch {
    return 'by hand';
  }
}

/** Shares a file. Returns null if the device cannot share it. */
export async function shareFile(
  title: string,
  file: File,
): Promise<Extract<Shared, 'shared' | 'left'> | null> {
  const { canShare } = navigator as Partial<Navigator>;
  return canShare?.call(navigator, { files: [file] })
    ? shareByDevice({ title, files: [file] })
    : null;
}

async function shareByDevice(data: ShareData): Promise<'shared' | 'left' | null> {
  // Despite its type, `share` is missing in some browsers and on pages without https.
  const { share } = navigator as Partial<Navigator>;
  if (!share) return null;
  try {
    await share.call(navigator, data);
    return 'shared';
  } catch (error) {
    return error instanceof DOMException && error.name === 'AbortError' ? 'left' : null;
  }
}

/** Returns the full address of a screen, on the host that serves this page. */
export function linkTo(fragment: string): string {
  return `${location.origin}${location.pathname}${fragment}`;
}
