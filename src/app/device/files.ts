export interface Files {
  /** Downloads a JSON text or a blob of any type. */
  readonly save: (name: string, content: string | Blob) => void;
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
    // When the next task begins, the download has its own copy of the data.
    setTimeout(() => URL.revokeObjectURL(url), 0);
  },
  read: (file) => file.text(),
};
