/** Files in and out of the browser. */

export interface Files {
  /** Offers a download: a text of JSON, or anything that says its own type. */
  readonly save: (name: string, content: string | Blob) => void;
  /** The whole text of a chosen file. */
  readonly read: (file: File) => Promise<string>;
}

export const browserFiles: Files = {
  save: (name, content) => {
    const blob =
      content instanceof Blob ? content : new Blob([content], { type: 'application/json' });
    const url = URL.createObjectURL(blob);
    const link = document.createElement('a');
    link.href = url;
    link.download = name;
    link.click();
    // The download has its own hold on the data by the next task.
    setTimeout(() => URL.revokeObjectURL(url), 0);
  },
  read: (file) => file.text(),
};
