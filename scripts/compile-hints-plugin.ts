/**
 * Says of the scripts that the first card needs that nearly all of them is run: a browser that knows
 * the note (V8's explicit compile hints) compiles them beside the page as they come in, and not
 * function by function in it. To other browsers it is a comment.
 */

import type { Plugin } from 'vite';

/** Only as the very first line of a script. */
const HINT = '//# allFunctionsCalledOnLoad\n';

/** @param names chunks that are hinted at beside the first script */
export function compileHints(names: readonly string[]): Plugin {
  return {
    name: 'throughline-compile-hints',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler: (_options, bundle) => {
        for (const file of Object.values(bundle)) {
          if (file.type === 'chunk' && (file.isEntry || names.includes(file.name)))
            file.code = HINT + file.code;
        }
      },
    },
  };
}
