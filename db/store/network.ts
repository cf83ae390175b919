/** Network folders: SQLite's locks and a power cut's promises do not hold there, so a file in one is refused. */
import { statfsSync } from 'node:fs';
import { dirname } from 'node:path';
import { CannotOpen } from './refusal.ts';

/** File system types as `statfs` names them, from the Linux kernel's magic numbers (linux/magic.h, statfs(2)). */
const NETWORK: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB 2'],
  [0x564c, 'NCP'],
  [0x5346414f, 'AFS'],
  [0x01021997, '9P'],
  [0x00c36400, 'Ceph'],
]);

/**
 * Refuse a path that lies in a network folder.
 * @param typeOf the file system type of a folder; given so that a test can stand in for a network
 * @throws CannotOpen with the reason
 */
export function refuseNetworkFolder(file: string, typeOf: (folder: string) => number = statfsType): void {
  const kind = /^(\\\\|\/\/)[^\\/]/.test(file) ? 'shared network' : NETWORK.get(typeOf(dirname(file)) >>> 0);
  if (kind === undefined) return;
  throw new CannotOpen(
    'network folder',
    `${file} lies in a ${kind} folder.`,
    'Keep the department on a disk of this computer: on a network folder two computers can damage it and a power cut can lose what was saved. Put backups there instead.',
  );
}

function statfsType(folder: string): number {
  try {
    return statfsSync(folder).type;
  } catch {
    return 0;
  }
}
