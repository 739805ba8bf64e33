interface TrustedTypes {
  readonly createPolicy: (
    name: string,
    rules: { readonly createScriptURL: (address: string) => string | null },
  ) => unknown;
}

/**
 * Admits addresses of this app's own files as addresses of scripts, and no others (Trusted Types, W3C).
 * The page's policy forbids the browser to make scripts or markup of any other text.
 */
export function admitOwnScripts(): void {
  const { trustedTypes } = window as { trustedTypes?: TrustedTypes };
  trustedTypes?.createPolicy('default', {
    createScriptURL: (address) =>
      new URL(address, location.href).origin === location.origin ? address : null,
  });
}
