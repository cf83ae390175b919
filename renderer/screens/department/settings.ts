/** What can be set for the department, what each changes, and the forms that amend it. */
import type { DepartmentPage } from '../../../db/api-desk.ts';
import type { Profile } from '../../../domain/rulebook/force.ts';
import type { DeedForm, FormField } from '../../parts/deeds/deedForm.ts';
import { decides, profileText } from './profileForm.ts';

export interface Setting {
  key: 'name' | 'profile' | 'zone' | 'units';
  title: string;
  value: string;
  /** As the store has it. */
  now: string;
  changes: string;
}

const ZONES = Intl.supportedValuesOf('timeZone').map(zone => ({
  value: zone,
  title: zone.replaceAll('_', ' '),
}));

const MEASURES = { US: 'US: feet, inches, psi', SI: 'SI: meters, millimeters, bar' } as const;

export function settingsOf(page: DepartmentPage, profile: Profile): Setting[] {
  return [
    {
      key: 'name',
      title: 'Name',
      value: page.name,
      now: page.name,
      changes: 'Stands over every screen and paper, and names the backups made from now on.',
    },
    {
      key: 'profile',
      title: 'What the department is',
      value: profileText(profile),
      now: '',
      changes: `Decides which rules are law here, and which intervals follow its kind. ${decides(profile)}`,
    },
    {
      key: 'zone',
      title: 'Time zone',
      value: page.zone.replaceAll('_', ' '),
      now: page.zone,
      changes: 'Where days end, so what “today” and “overdue” are. Moments are shown on this clock.',
    },
    {
      key: 'units',
      title: 'Units',
      value: MEASURES[page.measures],
      now: page.measures,
      changes:
        'In SI a converted figure stands before the one that was measured, on pages and paper. Forms take the unit they name; sizes keep their trade names.',
    },
  ];
}

function fieldOf({ key, title, changes }: Setting): FormField {
  const base = { key, title, note: changes };
  switch (key) {
    case 'units':
      return {
        ...base,
        kind: 'one of',
        choices: Object.entries(MEASURES).map(([value, words]) => ({ value, title: words })),
      };
    case 'zone':
      return { ...base, kind: 'pick', required: true, choices: ZONES };
    default:
      return { ...base, kind: 'text', required: true };
  }
}

export function settingForm(department: string, setting: Setting): DeedForm {
  const { key, title } = setting;
  return {
    title: `Amend: ${title.toLowerCase()}`,
    verb: 'Amend',
    initial: { [key]: setting.now },
    rows: () => [[fieldOf(setting)]],
    deeds: filled => {
      const typed = (filled[key] ?? '').trim();
      const same = typed === setting.now;
      return [{ action: 'department.amend', body: { department, ...(same ? {} : { [key]: typed }) } }];
    },
    done: () => `${title} is amended. What it was stays in the ledger.`,
  };
}
