/** What can be set for the department, what each changes, and the forms that amend it. */
import type { DepartmentPage } from '../../../db/api-desk.ts';
import type { Profile } from '../../../domain/rulebook/force.ts';
import type { DeedForm, FormField } from '../../parts/deeds/deedForm.ts';
import { decides, profileText } from './profileForm.ts';

export interface Setting {
  key: 'name' | 'profile' | 'zone' | 'units' | 'hasteUnder_s';
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
    {
      key: 'hasteUnder_s',
      title: 'Note on haste',
      value: page.hasteUnder_s === null ? 'Off' : `Under ${page.hasteUnder_s} s a line`,
      now: page.hasteUnder_s === null ? '' : String(page.hasteUnder_s),
      changes:
        'A check-off gone through faster, by the times on its sheet, is noted to whoever countersigns. It is never a finding, and readiness does not know of it.',
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
    case 'hasteUnder_s':
      return {
        ...base,
        kind: 'text',
        title: 'Noted under',
        unit: 'seconds a line',
        note: 'Whole seconds, 1 to 60; empty: off. No source gives a fair pace: it differs by sheet.',
      };
    case 'zone':
      return { ...base, kind: 'pick', required: true, choices: ZONES };
    default:
      return { ...base, kind: 'text', required: true };
  }
}

/** What was typed as the store takes it; what is no number goes as it is, and the store says what is wrong with it. */
function takenAs(key: Setting['key'], typed: string): string | number | null {
  if (key !== 'hasteUnder_s') return typed;
  if (typed === '') return null;
  return /^\d+$/.test(typed) ? Number(typed) : typed;
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
      return [
        { action: 'department.amend', body: { department, ...(same ? {} : { [key]: takenAs(key, typed) }) } },
      ];
    },
    done: () => `${title} is amended. What it was stays in the ledger.`,
  };
}
