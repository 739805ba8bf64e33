/** Files in and out of the browser. */

export interface Files {
  /** Offers a text as a download. */
  readonly save: (name: string, text: string) => void;
  /** The whole text of a chosen file. */
  readonly read: (file: File) => Promise<string>;
}

export const browserFiles: Files = {
  save: (name, text) => {
    const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
    const link = document.createElement('a');
    link.href = url;
    link.download = name;
    link.click();
    // The download has its own hold on the data by the next task.
    setTimeout(() => URL.revokeObjectURL(url), 0);
  },
  read: (file) => file.text(),
};
