/** The screens of the rail, in the order of a morning; each has its figure, here and in the desktop's own menu. */
import type { ScreenName } from '../../db/api.ts';

interface RailScreen {
  name: ScreenName;
  to:
    | '/readiness'
    | '/rigs'
    | '/checks'
    | '/due'
    | '/tagouts'
    | '/supply'
    | '/import'
    | '/rules'
    | '/department';
  key: string;
  title: string;
  /** Screens that are reached from this one and stand under it. */
  holds?: readonly string[];
}

export const SCREENS: readonly RailScreen[] = [
  { name: 'readiness', to: '/readiness', key: '1', title: 'Readiness' },
  { name: 'rigs', to: '/rigs', key: '2', title: 'Rigs' },
  { name: 'checks', to: '/checks', key: '3', title: 'Check-offs', holds: ['/carry', '/kits', '/incidents'] },
  { name: 'due', to: '/due', key: '4', title: 'Coming due' },
  { name: 'tagouts', to: '/tagouts', key: '5', title: 'Tag-outs', holds: ['/notices'] },
  { name: 'supply', to: '/supply', key: '6', title: 'Supply', holds: ['/fills'] },
  { name: 'import', to: '/import', key: '7', title: 'Import' },
  { name: 'rules', to: '/rules', key: '8', title: 'Rule book' },
  { name: 'department', to: '/department', key: '9', title: 'Department' },
];
