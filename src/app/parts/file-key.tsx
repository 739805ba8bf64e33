/** The types of file that a file chooser offers: chart and backup files, or tables of lines. */
const ACCEPTED = {
  json: 'application/json,.json',
  table: '.csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain',
} as const;

interface FileKeyProps {
  readonly label: string;
  readonly kind: keyof typeof ACCEPTED;
  readonly quiet?: boolean;
  readonly onFile: (file: File) => void;
}

/** A button that lets the player choose a file. */
export function FileKey({ label, kind, quiet = false, onFile }: FileKeyProps) {
  return (
    <label class={quiet ? 'key quiet file' : 'key file'}>
      {label}
      <input
        type="file"
        accept={ACCEPTED[kind]}
        onChange={(event) => {
          const input = event.currentTarget;
          const file = input.files?.[0];
          if (file) onFile(file);
          // Otherwise the browser reports no change when the same file is chosen again.
          input.value = '';
        }}
      />
    </label>
  );
}
