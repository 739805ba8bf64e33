/** Handing a link or a file on: an adapter around what the browser can do. */

/**
 * `shared`: the device's own way of sharing took it. `copied`: it is on the clipboard. `left`: the
 * player thought better of it. `by hand`: neither is to be had, and the link has to be shown.
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

/** Null if the device shares no such file. */
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
  // Not in every browser, nor on every address, whatever the types say.
  const { share } = navigator as Partial<Navigator>;
  if (!share) return null;
  try {
    await share.call(navigator, data);
    return 'shared';
  } catch (error) {
    return error instanceof DOMException && error.name === 'AbortError' ? 'left' : null;
  }
}

/** The address of a screen of this app, wherever it is served. */
export function linkTo(fragment: string): string {
  return `${location.origin}${location.pathname}${fragment}`;
}
