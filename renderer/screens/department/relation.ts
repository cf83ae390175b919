/** What a backup is to the open file, as a person is told before restoring it. */
import type { BackupRelation } from '../../../db/api.ts';
import { counted } from './words.ts';

/** @param name the name of the open file */
export function relationInWords(relation: BackupRelation, name: string): string {
  const open = `“${name}”`;
  const here = counted(relation.onlyHere, 'entry', 'entries');
  const there = counted(relation.onlyInBackup, 'entry', 'entries');
  switch (relation.is) {
    case 'same':
      return `It holds exactly what ${open} holds.`;
    case 'older':
      return `It is older: ${open} holds all of it and ${here} more, which the restored file will not have.`;
    case 'newer':
      return `It is newer: it holds all of ${open} and ${there} more.`;
    case 'diverged':
      return `They have parted: ${open} has ${here} that the backup lacks, and the backup has ${there} that ${open} lacks. Keep both files.`;
    case 'unrelated':
      return `It is another department’s: it shares no entry with ${open}.`;
  }
}
