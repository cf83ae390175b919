/** The Department screen’s words, lists and forms. Our own design, no source. */
import { fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import type { DepartmentFiles, HostRequest, MemberLine, PlaceLine } from '../../db/api.ts';
import type { DepartmentPage } from '../../db/api-desk.ts';
import { POSITIONS } from '../../domain/people/entitlements.ts';
import { FAMILIES } from '../../domain/rulebook/index.ts';
import { Agencies } from '../../renderer/screens/department/Agencies.tsx';
import { Backup } from '../../renderer/screens/department/Backup.tsx';
import { areOwn, filledFrom, grantsInWords, grantsOf } from '../../renderer/screens/department/grants.ts';
import { Members } from '../../renderer/screens/department/Members.tsx';
import { addMemberForm, entitleForm } from '../../renderer/screens/department/memberForms.ts';
import { amendPlaceForm } from '../../renderer/screens/department/placeForms.ts';
import { insideOf, placeRows } from '../../renderer/screens/department/placeRows.ts';
import { relationInWords } from '../../renderer/screens/department/relation.ts';
import { draw, fakeHost, MEMBERS, TODAY } from './browser.tsx';

const place = (
  id: string,
  kind: string,
  parent: string | null,
  more: Partial<PlaceLine> = {},
): PlaceLine => ({
  id,
  name: id,
  kind,
  path: id,
  parent,
  unit: null,
  rig: null,
  station: null,
  items: 0,
  ...more,
});

const PLACES = [
  place('S1', 'station', null),
  place('member Lind', 'member', 'S1', { items: 2 }),
  place('rack', 'rack', 'S1', { items: 5 }),
  place('E1 rig', 'rig', 'S1', { unit: 'E1', items: 1 }),
  place('L1', 'compartment', 'E1 rig', { items: 10 }),
  place('tray', 'tray', 'L1', { items: 3 }),
  place('R-1', 'rig', 'S1'),
  place('vendor', 'vendor', null, { items: 4 }),
];
const UNITS = [
  { id: 'u1', name: 'E1', station: 'S1' },
  { id: 'u2', name: 'Truck 9', station: null },
];
const shown = (rows: ReturnType<typeof placeRows>) =>
  rows.map(r => `${'.'.repeat(r.depth)}${r.name} ${r.here}/${r.inAll}`);

describe('the list of places', () => {
  it('puts a unit at its station with the rig it rides inside, and counts what is here and in all', () => {
    expect(shown(placeRows(PLACES, UNITS, () => false))).toEqual([
      'S1 0/21',
      '.E1 0/14',
      '..E1 rig 1/14',
      '...L1 10/13',
      '....tray 3/3',
      '.R-1 0/0',
      '.rack 5/5',
      '.member Lind 2/2',
      'Truck 9 0/0',
      'vendor 4/4',
    ]);
  });

  it('hides what is inside a folded one, and still counts it', () => {
    expect(shown(placeRows(PLACES, UNITS, r => r.kind === 'station'))).toEqual([
      'S1 0/21',
      'Truck 9 0/0',
      'vendor 4/4',
    ]);
  });

  it('shows each place once, also where two devices put two places each inside the other', () => {
    const circle = [place('a', 'rack', 'b'), place('b', 'rack', 'a')];
    expect(placeRows(circle, [], () => false).map(r => r.id)).toEqual(['a', 'b']);
  });

  it('offers no place that lies inside it to be put under', () => {
    expect([...insideOf('E1 rig', PLACES)]).toEqual(['E1 rig', 'L1', 'tray']);
  });

  it('sends only what was changed when one is amended', () => {
    const [row] = placeRows(PLACES, UNITS, () => false).filter(r => r.id === 'rack');
    if (!row) throw new Error('No rack.');
    const summary = { stations: [], units: [], rigs: [] } as never;
    const form = amendPlaceForm(row, PLACES, summary);
    expect(form.deeds({ ...form.initial, name: 'hose rack' }, TODAY)).toEqual([
      { action: 'place.amend', body: { place: 'rack', name: 'hose rack' } },
    ]);
    expect(form.deeds({ ...form.initial, under: 'none' }, TODAY)).toEqual([
      { action: 'place.amend', body: { place: 'rack', under: null } },
    ]);
  });
});

describe('what a member may do', () => {
  it('is said in words, with the families it is for', () => {
    expect(grantsInWords(POSITIONS.administrator ?? [], FAMILIES)).toBe('Everything');
    expect(grantsInWords([], FAMILIES)).toBe('Nothing');
    expect(
      grantsInWords(
        [
          { entitlement: 'read', families: 'all' },
          { entitlement: 'return', families: ['hose', 'ladder'] },
        ],
        FAMILIES,
      ),
    ).toBe('Look; return to service for hose and ground ladder');
  });

  it('goes into the form and comes out of it unchanged', () => {
    for (const grants of [
      ...Object.values(POSITIONS),
      [{ entitlement: 'return' as const, families: ['hose'] }],
    ])
      expect(grantsOf(filledFrom(grants), FAMILIES)).toEqual(grants);
  });

  it('is told from the position where it is other than the position’s, and kept when the form is sent', () => {
    const own = [...(POSITIONS.technician ?? []), { entitlement: 'return' as const, families: ['hose'] }];
    expect(areOwn('technician', own)).toBe(true);
    expect(areOwn('technician', POSITIONS.technician ?? [])).toBe(false);
    const member: MemberLine = {
      id: 'm9',
      number: '9',
      name: 'G',
      position: 'technician',
      grants: own,
      hasPin: false,
      qualifications: [],
    };
    const form = entitleForm(member, FAMILIES);
    expect(form.deeds(form.initial, TODAY)).toEqual([
      { action: 'member.entitle', body: { member: 'm9', position: 'technician', grants: own } },
    ]);
  });
});

describe('a PIN', () => {
  it('is typed twice, goes as a secret of its own deed, and never into a body', () => {
    const form = addMemberForm(FAMILIES);
    const filled = { ...form.initial, number: '12', name: 'S. Lind', position: 'logistics', secret: '4815' };
    expect(form.check?.({ ...filled, again: '4816' })).toMatchObject([{ field: 'again' }]);
    expect(form.check?.({ ...filled, again: '4815' })).toEqual([]);
    expect(form.deeds({ ...filled, again: '4815' }, TODAY)).toEqual([
      { action: 'member.add', body: { number: '12', name: 'S. Lind', position: 'logistics' } },
      { action: 'member.pin', body: { member: '&0' }, secret: '4815' },
    ]);
  });

  it('is set with its rule and the lock in sight; what differs is not sent', async () => {
    const host = fakeHost({});
    draw(<Members />);
    await screen.findByRole('grid', { name: 'Members' });
    fireEvent.keyDown(document.body, { key: 'k' });
    const dialog = within(await screen.findByRole('dialog'));
    expect(dialog.getByText(/At least 4 characters/)).toBeTruthy();
    expect(dialog.getByText(/5 in a row lock it for 5 minutes/)).toBeTruthy();
    fireEvent.change(dialog.getByLabelText('New PIN'), { target: { value: '4815' } });
    fireEvent.change(dialog.getByLabelText('The same again'), { target: { value: '4816' } });
    fireEvent.change(dialog.getByLabelText('Signed by', { selector: 'input' }), {
      target: { value: 'Dana' },
    });
    fireEvent.click(await screen.findByRole('option', { name: /Dana/ }));
    fireEvent.click(dialog.getByRole('button', { name: /^Set it/ }));
    expect(await dialog.findByText('The two PINs are not the same.')).toBeTruthy();
    expect(host.acts).toEqual([]);
    fireEvent.change(dialog.getByLabelText('The same again'), { target: { value: '4815' } });
    fireEvent.click(dialog.getByRole('button', { name: /^Set it/ }));
    await waitFor(() =>
      expect(host.acts).toEqual([
        {
          by: 'm1',
          deeds: [{ action: 'member.pin', body: { member: MEMBERS[0]?.id }, secret: '4815' }],
        },
      ]),
    );
  });
});

describe('agencies', () => {
  const page: DepartmentPage = {
    id: 'd1',
    name: 'Larkspur Valley Fire District',
    zone: 'America/Denver',
    state: 'CO',
    measures: 'US',
    hasteUnder_s: null,
    file: { format: 3, device: 'k3f9ab12' },
    agencies: [
      {
        id: 'a1',
        name: 'Valley Cylinder Test',
        rin: 'B456',
        rinExpires: '2026-11-01',
        rinState: 'overdue',
        rinDaysLeft: -24,
      },
    ],
  };

  it('whose RIN has expired are marked, with what to do', async () => {
    fakeHost({ 'department.page': () => page });
    draw(<Agencies />);
    const row = within((await screen.findByText('Valley Cylinder Test')).closest('tr') as HTMLElement);
    expect(row.getByText('Overdue')).toBeTruthy();
    expect(row.getByText('24 days ago')).toBeTruthy();
    expect(row.getByText(/RIN expired: ask for its new approval/)).toBeTruthy();
  });
});

describe('backups', () => {
  const FILE = 'Larkspur 2026-11-25 1407.baybook';

  function withHost(answer: (request: HostRequest) => Partial<DepartmentFiles> | null) {
    fakeHost({});
    const asked: HostRequest[] = [];
    if (window.baybook)
      window.baybook.host = async request => {
        asked.push(request);
        const more = answer(request);
        if (more === null)
          return {
            ok: false,
            error: { code: 'damaged backup', message: 'Entry 3 is bad.', todo: 'Keep it.', field: null },
          };
        const backups = { folder: '/data/backups', files: [{ name: FILE, bytes: 14e6, changedAt: 0 }] };
        return { ok: true, value: { folder: '/data', open: 'demo.baybook', files: [], backups, ...more } };
      };
    return asked;
  }

  it('are looked into first: what they hold, and what they are to the open file', async () => {
    withHost(({ command }) =>
      command === 'preview'
        ? {
            preview: {
              name: FILE,
              department: 'Larkspur Valley',
              entries: 12,
              things: 3,
              members: 2,
              lastAt: '2026-11-25T12:00:00.000Z',
              heads: [{ device: 'k3f9ab12', seq: 12, hash: 'a'.repeat(64) }],
              anchored: true,
              relation: { is: 'older', onlyHere: 2, onlyInBackup: 0 },
            },
          }
        : {},
    );
    draw(<Backup />);
    fireEvent.click(await screen.findByText(FILE.replace('.baybook', '')));
    const dialog = within(await screen.findByRole('dialog'));
    expect(await dialog.findByText(/“demo” holds all of it and 2 entries more/)).toBeTruthy();
    expect(dialog.getByText(/ends where its anchor says/)).toBeTruthy();
    await waitFor(() => expect(document.activeElement?.textContent).toContain('Restore as a new file'));
  });

  it('that are damaged cannot be restored, and say what is wrong', async () => {
    const asked = withHost(({ command }) => (command === 'preview' ? null : {}));
    draw(<Backup />);
    fireEvent.click(await screen.findByText(FILE.replace('.baybook', '')));
    const dialog = within(await screen.findByRole('dialog'));
    expect(await dialog.findByText('Entry 3 is bad.')).toBeTruthy();
    const button = dialog.getByRole('button', { name: /Restore as a new file/ });
    expect((button as HTMLButtonElement).disabled).toBe(true);
    fireEvent.keyDown(document.body, { key: 'Enter' });
    expect(asked.map(r => r.command)).not.toContain('restore');
  });

  it('are told apart in words', () => {
    const says = (is: Parameters<typeof relationInWords>[0]['is'], onlyHere: number, onlyInBackup: number) =>
      relationInWords({ is, onlyHere, onlyInBackup }, 'demo');
    expect(says('same', 0, 0)).toContain('exactly what “demo” holds');
    expect(says('newer', 0, 1)).toContain('all of “demo” and 1 entry more');
    expect(says('diverged', 2, 3)).toContain('“demo” has 2 entries that the backup lacks');
    expect(says('unrelated', 9, 9)).toContain('another department’s');
  });
});
