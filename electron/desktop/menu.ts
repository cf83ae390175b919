/** The menu as data. Every accelerator is written out here, those of roles too, so that none is given twice. */
import type { MenuItemConstructorOptions } from 'electron';
import type { HostCommand, ScreenName } from '../../db/api.ts';
import type { Light } from './notes.ts';

export interface MenuDeeds {
  newDepartment(): void;
  openDepartment(): void;
  openRecent(name: string): void;
  importSheet(): void;
  print(): void;
  setLight(light: Light): void;
  about(): void;
  /** What the screens do themselves. */
  tell(command: HostCommand): void;
}

export interface MenuState {
  recent: readonly string[];
  light: Light;
  platform: NodeJS.Platform;
}

const LIGHTS: readonly [Light, string][] = [
  ['system', 'Light or dark as the computer'],
  ['light', 'Light'],
  ['dark', 'Dark'],
];

export function menuTemplate(deeds: MenuDeeds, state: MenuState): MenuItemConstructorOptions[] {
  const mac = state.platform === 'darwin';
  return [
    ...(mac ? [{ role: 'appMenu' as const }] : []),
    { label: '&File', submenu: fileMenu(deeds, state) },
    { label: '&Edit', submenu: EDIT },
    { label: '&View', submenu: viewMenu(deeds, state) },
    { label: '&Go', submenu: goMenu(deeds) },
    {
      label: '&Help',
      role: 'help',
      submenu: [
        {
          label: 'Help with this screen',
          accelerator: 'F1',
          click: () => deeds.tell({ do: 'dialog', dialog: 'help' }),
        },
        { label: 'Keys', click: () => deeds.tell({ do: 'dialog', dialog: 'keys' }) },
        { label: 'About Baybook', click: deeds.about },
      ],
    },
  ];
}

function fileMenu(deeds: MenuDeeds, { recent, platform }: MenuState): MenuItemConstructorOptions[] {
  const names = recent.map(name => ({ label: plainLabel(name), click: () => deeds.openRecent(name) }));
  return [
    { label: 'New department…', accelerator: 'CmdOrCtrl+N', click: deeds.newDepartment },
    { label: 'Open department…', accelerator: 'CmdOrCtrl+O', click: deeds.openDepartment },
    {
      label: 'Open recent',
      submenu: names.length > 0 ? names : [{ label: 'None yet', enabled: false }],
    },
    { type: 'separator' },
    { label: 'Import a sheet…', accelerator: 'CmdOrCtrl+I', click: deeds.importSheet },
    { label: 'Print…', accelerator: 'CmdOrCtrl+P', click: deeds.print },
    // The program's own menu has this on macOS.
    ...(platform === 'darwin'
      ? []
      : [{ type: 'separator' as const }, { role: 'quit' as const, accelerator: 'CmdOrCtrl+Q' }]),
  ];
}

const EDIT: MenuItemConstructorOptions[] = [
  { role: 'undo', accelerator: 'CmdOrCtrl+Z' },
  { role: 'redo', accelerator: 'CmdOrCtrl+Shift+Z' },
  { type: 'separator' },
  { role: 'cut', accelerator: 'CmdOrCtrl+X' },
  { role: 'copy', accelerator: 'CmdOrCtrl+C' },
  { role: 'paste', accelerator: 'CmdOrCtrl+V' },
  { role: 'selectAll', accelerator: 'CmdOrCtrl+A' },
];

function viewMenu(deeds: MenuDeeds, { light, platform }: MenuState): MenuItemConstructorOptions[] {
  return [
    { role: 'zoomIn', label: 'Larger', accelerator: 'CmdOrCtrl+Plus' },
    { role: 'zoomOut', label: 'Smaller', accelerator: 'CmdOrCtrl+-' },
    { role: 'resetZoom', label: 'Usual size', accelerator: 'CmdOrCtrl+0' },
    { type: 'separator' },
    ...LIGHTS.map(([value, label]) => ({
      label,
      type: 'radio' as const,
      checked: value === light,
      click: () => deeds.setLight(value),
    })),
    { type: 'separator' },
    { role: 'togglefullscreen', accelerator: platform === 'darwin' ? 'Ctrl+Cmd+F' : 'F11' },
    { role: 'reload', accelerator: 'CmdOrCtrl+R', visible: false, acceleratorWorksWhenHidden: true },
  ];
}

const SCREENS: readonly { label: string; screen: ScreenName; figure: number }[] = [
  { label: 'Readiness', screen: 'readiness', figure: 1 },
  { label: 'Rigs', screen: 'rigs', figure: 2 },
  { label: 'Check-offs', screen: 'checks', figure: 3 },
  { label: 'Coming due', screen: 'due', figure: 4 },
  { label: 'Tag-outs', screen: 'tagouts', figure: 5 },
  { label: 'Supply', screen: 'supply', figure: 6 },
  { label: 'Import', screen: 'import', figure: 7 },
  { label: 'Rule book', screen: 'rules', figure: 8 },
  { label: 'Department', screen: 'department', figure: 9 },
];

/** The figures are those of the rail, so that one number means one screen. */
function goMenu({ tell }: MenuDeeds): MenuItemConstructorOptions[] {
  return [
    ...SCREENS.map(({ label, screen, figure }) => ({
      label,
      accelerator: `CmdOrCtrl+${figure}`,
      click: () => tell({ do: 'screen', screen }),
    })),
    {
      label: 'Department files',
      accelerator: 'CmdOrCtrl+Shift+O',
      click: () => tell({ do: 'dialog', dialog: 'files' }),
    },
    { label: 'Display', accelerator: 'F2', click: () => tell({ do: 'dialog', dialog: 'display' }) },
    { type: 'separator' },
    { label: 'Search', accelerator: 'CmdOrCtrl+F', click: () => tell({ do: 'search' }) },
    {
      label: 'Who acts',
      accelerator: 'CmdOrCtrl+Shift+W',
      click: () => tell({ do: 'dialog', dialog: 'who' }),
    },
  ];
}

/** An ampersand in a name would underline the letter after it. */
const plainLabel = (name: string) => name.replaceAll('&', '&&');
