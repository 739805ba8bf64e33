interface TrustedTypes {
  readonly createPolicy: (
    name: string,
    rules: { readonly createScriptURL: (address: string) => string | null },
  ) => unknown;
}

/**
 * Allows only this app's own files as scripts (Trusted Types, W3C). The page's security policy keeps
 * the browser from making scripts or markup from any other text.
 */
export function admitOwnScripts(): void {
  const { trustedTypes } = window as { trustedTypes?: TrustedTypes };
  trustedTypes?.createPolicy('default', {
    createScriptURL: (address) =>
      new URL(address, location.href).origin === location.origin ? address : null,
  });
}
