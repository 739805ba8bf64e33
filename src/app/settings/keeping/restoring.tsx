/** Restores a backup from a file. */

import type { Files } from '../../device/files.ts';
import { FileKey } from '../../parts/file-key.tsx';
import type { Model } from '../../state/model.ts';

/** Says what restoring did, or why it did nothing. */
export interface Report {
  readonly good: boolean;
  readonly text: string;
}

export async function restoreBackup(
  model: Pick<Model, 'importBackup'>,
  files: Pick<Files, 'read'>,
  file: File,
): Promise<Report> {
  try {
    const result = await model.importBackup(await files.read(file));
    return result.ok ? { good: true, text: addedWords(result) } : { good: false, text: result.say };
  } catch (error) {
    console.error('Not restored:', error);
    return { good: false, text: 'The browser refused to write the backup. Nothing was changed.' };
  }
}

function addedWords(added: { readonly added: number; readonly charts: number }): string {
  const { added: entries, charts } = added;
  if (entries === 0 && charts === 0)
    return 'Nothing was missing: all of that backup was here already.';
  const parts = [
    entries > 0 ? `${entries} ${entries === 1 ? 'entry' : 'entries'} of the log` : '',
    charts > 0 ? `${charts} ${charts === 1 ? 'chart' : 'charts'}` : '',
  ];
  return `Restored ${parts.filter(Boolean).join(' and ')}.`;
}

export function RestoreButton({ onFile }: { readonly onFile: (file: File) => void }) {
  return <FileKey label="Restore from a file" kind="json" quiet onFile={onFile} />;
}
