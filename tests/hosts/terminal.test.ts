/**
 * The terminal as scripts meet it: a process of its own, JSON on standard output, exit codes. What the rows of a sheet
 * become is tested with the import; here it is what the terminal makes of it. Our own design, no source.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { ACTIONS_HELP, QUESTIONS_HELP, VOCABULARY_HELP } from '../../db/help.ts';
import { buildStale } from '../../scripts/bootstrap/build.mjs';
import { png, sha256Of } from '../db/kit/pictures.ts';
import { scratchFolder } from './scratch.ts';

const TERMINAL = fileURLToPath(new URL('../../dist/host/terminal.js', import.meta.url));

beforeAll(() => buildStale(['host']), 120_000);

interface Ran {
  code: number | null;
  out: string;
  err: string;
}

interface Place {
  cwd: string;
  env?: Record<string, string>;
}

function run(args: readonly string[], { cwd, env = {} }: Place): Promise<Ran> {
  const child = spawn(process.execPath, [TERMINAL, ...args], {
    cwd,
    env: { ...process.env, npm_lifecycle_event: '', BAYBOOK_DATA: join(cwd, 'data'), ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ran: Ran = { code: null, out: '', err: '' };
  child.stdout.on('data', part => {
    ran.out += part;
  });
  child.stderr.on('data', part => {
    ran.err += part;
  });
  return new Promise(resolve => child.on('close', code => resolve({ ...ran, code })));
}

/** Runs a command that must go well. @returns what it printed */
async function ok(args: readonly string[], place: Place) {
  const { code, out, err } = await run(args, place);
  expect({ code, err, out: code === 0 ? '' : out }).toEqual({ code: 0, err: '', out: '' });
  return JSON.parse(out);
}

/** Runs a command that must be refused. @returns the problem */
async function refused(args: readonly string[], place: Place) {
  const { code, out } = await run(args, place);
  expect(code).toBe(1);
  const { error } = JSON.parse(out);
  expect(Object.keys(error)).toEqual(expect.arrayContaining(['code', 'message', 'todo', 'field']));
  expect(error.todo).not.toBe('');
  return error;
}

const FILE = ['--file', 'department.baybook'];
const act = (...deeds: [action: string, body: object, secret?: string][]) => [
  'act',
  JSON.stringify(
    deeds.map(([action, body, secret]) => ({ action, body, ...(secret === undefined ? {} : { secret }) })),
  ),
  ...FILE,
];
const ask = (question: string, args: object = {}) => ['ask', question, JSON.stringify(args), ...FILE];

describe('a photo', () => {
  it('goes with the deed that names it, and comes back by its hash', async () => {
    const cwd = scratchFolder();
    const cut = png(1);
    writeFileSync(join(cwd, 'cut.png'), cut);
    const tag = act(
      ['item.receive', { family: 'hose', number: '31-107' }],
      ['item.tagOut', { item: '&0', reason: 'Jacket cut', photos: ['#0'] }],
    );
    await ok([...tag, '--photo', 'cut.png'], { cwd });
    const [line] = await ok(ask('item.history', { number: '31-107' }), { cwd });
    expect(line.photos).toEqual([{ sha256: sha256Of(cut), mime: 'image/png', size_bytes: cut.length }]);
    const { bytes } = await ok(ask('photo.get', { sha256: sha256Of(cut) }), { cwd });
    expect(Buffer.from(bytes, 'base64')).toEqual(cut);
    expect(await refused([...tag, '--photo', 'none.png'], { cwd })).toMatchObject({
      code: 'file',
      field: 'photo',
    });
    expect(await refused(tag, { cwd })).toMatchObject({ code: 'number in use' });
  });
});

describe('a paper', () => {
  it('is written as a PDF by the built program, and never over a file', async () => {
    const cwd = scratchFolder();
    await ok(act(['station.add', { name: 'Station 31' }]), { cwd });
    const paper = [
      'paper',
      '{"paper":"morning page","station":"Station 31"}',
      '--to',
      'morning.pdf',
      ...FILE,
    ];
    const written = await ok(paper, { cwd });
    const bytes = readFileSync(join(cwd, 'morning.pdf'));
    expect(written).toEqual({ file: join(cwd, 'morning.pdf'), pages: 1, bytes: bytes.length });
    // ISO 32000-1:2008, 7.5.2 and 7.5.5: what a PDF begins and ends with.
    expect(bytes.toString('latin1')).toMatch(/^%PDF-1\.7\n[\s\S]*%%EOF\n?$/);
    expect(await refused(paper, { cwd })).toMatchObject({ code: 'file', field: 'to' });
    expect(
      await refused(['paper', '{"paper":"morning page","station":"Station 99"}', '--to', 'b.pdf', ...FILE], {
        cwd,
      }),
    ).toMatchObject({ code: 'not found', field: 'station' });
    expect(existsSync(join(cwd, 'b.pdf'))).toBe(false);
  });
});

describe('a path that does not exist', () => {
  it('becomes a new department, in which a member called Terminal acts', async () => {
    const place = { cwd: scratchFolder() };
    const done = await ok(act(['station.add', { name: 'Station 31' }]), place);
    expect(done).toMatchObject({
      entries: [expect.any(String)],
      touched: expect.arrayContaining(['places']),
    });
    const summary = await ok(ask('department.summary'), place);
    expect(summary).toMatchObject({
      name: 'New department',
      zone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
      stations: [{ name: 'Station 31' }],
    });
    const members = await ok(ask('members.list'), place);
    expect(members).toEqual([expect.objectContaining({ number: 'T', name: 'Terminal' })]);
  });

  it('may be opened by the script itself, under its own name', async () => {
    const place = { cwd: scratchFolder() };
    const opening = {
      name: 'Larkspur Valley Fire District',
      zone: 'America/Denver',
      member: { number: '100', name: 'R. Alder' },
    };
    await ok(act(['department.open', opening]), place);
    expect(await ok(ask('department.summary'), place)).toMatchObject({
      name: opening.name,
      zone: opening.zone,
    });
    const members: { name: string }[] = await ok(ask('members.list'), place);
    expect(members.map(m => m.name).sort()).toEqual(['R. Alder', 'Terminal']);
  });

  it('is refused where its folder does not exist either', async () => {
    const cwd = scratchFolder();
    await refused(['ask', 'members.list', '--file', 'no/such/folder/a.baybook'], { cwd });
    expect(readdirSync(cwd)).toEqual([]);
  });
});

describe('without --file', () => {
  it('a first file in the data folder is made, and opened again the next time', async () => {
    const cwd = scratchFolder();
    await ok(['act', '[{"action":"station.add","body":{"name":"Station 31"}}]'], { cwd });
    expect(readdirSync(join(cwd, 'data')).sort()).toEqual(['department.baybook', 'opened-last.json']);
    const { stations } = await ok(['ask', 'department.summary'], { cwd });
    expect(stations).toMatchObject([{ name: 'Station 31' }]);
  });
});

describe('a refusal', () => {
  it('says what is wrong and what to do, and ends with 1', async () => {
    const place = { cwd: scratchFolder() };
    await refused(act(['station.demolish', {}]), place);
    expect(await refused(act(['station.add', { name: 5 }]), place)).toMatchObject({ field: 'name' });
    await refused(ask('due.guess'), place);
    await refused(ask('due.list', { on: 'soon' }), place);
    expect(await refused(['act', '[{', ...FILE], place)).toMatchObject({ code: 'bad JSON', field: 'deeds' });
    expect(await refused(['tell', 'due.list'], place)).toMatchObject({ code: 'usage', field: 'command' });
    expect(await refused([], place)).toMatchObject({ code: 'usage' });
    expect(await refused(['import', 'gone.csv', '--family', 'hose', ...FILE], place)).toMatchObject({
      code: 'no such file',
      field: 'file',
    });
  });

  it('of one deed refuses the whole list', async () => {
    const place = { cwd: scratchFolder() };
    await refused(act(['station.add', { name: 'Station 31' }], ['station.add', { name: '' }]), place);
    expect(await ok(ask('department.summary'), place)).toMatchObject({ stations: [] });
  });

  it('comes for a file of another kind, which is left as it is', async () => {
    const cwd = scratchFolder();
    writeFileSync(join(cwd, 'department.baybook'), 'Hose No,Dia (in)\n31-100,3\n');
    await refused(ask('members.list'), { cwd });
    expect(readdirSync(cwd)).toEqual(['department.baybook']);
  });
});

describe('who acts', () => {
  it('is named by number, and may do only what they are entitled to', async () => {
    const place = { cwd: scratchFolder() };
    await ok(act(['member.add', { number: '214', name: 'J. Okafor', position: 'auditor' }]), place);
    const add = act(['station.add', { name: 'Station 31' }]);
    expect(await refused([...add, '--by', '214'], place)).toMatchObject({ code: 'not entitled' });
    expect(await refused([...add, '--by', '999'], place)).toMatchObject({
      code: 'no such member',
      field: 'by',
    });
    await ok([...add, '--by', 'T'], place);
  });

  it('signs with a PIN from the environment, where they have one', async () => {
    const place = { cwd: scratchFolder() };
    const position = 'administrator';
    const member = ['member.add', { number: '214', name: 'J. Okafor', position }] as [string, object];
    await ok(act(member, ['member.pin', { member: '&0' }, '4711']), place);
    const add = [...act(['station.add', { name: 'Station 31' }]), '--by', '214'];
    await refused(add, place);
    await refused(add, { ...place, env: { BAYBOOK_PIN: '1234' } });
    await ok(add, { ...place, env: { BAYBOOK_PIN: '4711' } });
  });
});

describe('an import', () => {
  const SHEET = `Hose No,Dia (in),Length,Made,In Svc,Last Test,Result,Location
31-100,3,50 ft,2023-08,2024-04-17,2026-05-06,P,Engine 31

31-101,2.5,50,2016-09,2016-11-02,2026-05-08,P,Engine 31
31-102,2.5,50,2016-09,2016-11-02,never mind,P,Engine 31
`;
  const importing = (...more: string[]) => [
    'import',
    'hose.csv',
    '--family',
    'hose',
    '--on',
    '2026-11-25',
    ...FILE,
    ...more,
  ];
  function station(): Place {
    const cwd = scratchFolder();
    writeFileSync(join(cwd, 'hose.csv'), SHEET);
    return { cwd };
  }

  it('prints what every row becomes, counting rows under the headings and no blank ones', async () => {
    const place = station();
    const report = await ok(importing('--dry-run'), place);
    expect(report).toMatchObject({ accepted: 2, refused: 1, written: false });
    expect(report.rows.map((r: { row: number }) => r.row)).toEqual([1, 2, 3]);
    expect(report.rows[0]).toMatchObject({
      ok: true,
      number: '31-100',
      becomes: {
        diameter_in: '3.0',
        length_ft: 50,
        made: '2023-08',
        inService: '2024-04-17',
        lastServiceTest: '2026-05-06',
        outcome: 'pass',
      },
      problems: [],
    });
    expect(report.rows[2]).toMatchObject({
      ok: false,
      problems: [{ column: 'Last Test', wrong: expect.any(String), todo: expect.any(String) }],
    });
    expect(await ok(ask('department.summary'), place)).toMatchObject({ things: 0 });
  });

  it('brings in the rows that are right, and nothing the second time', async () => {
    const place = station();
    expect(await ok(importing('--yes'), place)).toMatchObject({
      accepted: 2,
      refused: 1,
      written: true,
      batch: expect.any(String),
    });
    const due = await ok(ask('due.list', { on: '2026-11-25', text: '31-100' }), place);
    expect(due.rows).toEqual(
      expect.arrayContaining([expect.objectContaining({ number: '31-100', dueOn: '2027-05-06' })]),
    );
    const entries = (await ok(ask('department.summary'), place)).entries;
    const again = await ok(importing('--yes'), place);
    expect(again).toMatchObject({ written: false, note: expect.stringContaining('already known') });
    expect((await ok(ask('department.summary'), place)).entries).toBe(entries);
  });

  it('takes new places only with --yes', async () => {
    const place = station();
    const report = await ok(importing(), place);
    expect(report).toMatchObject({ accepted: 2, written: true, note: expect.stringContaining('--yes') });
    expect(report.offers).toEqual([expect.objectContaining({ kind: 'place', name: 'Engine 31' })]);
    expect(await ok(ask('places.list'), place)).toEqual([]);
  });
});

describe('the demo', () => {
  it('is made at a path, whole, and never over a file', async () => {
    const place = { cwd: scratchFolder() };
    const made = await ok(['demo', '--on', '2026-11-25', '--seed', '1', ...FILE], place);
    expect(made).toMatchObject({
      file: join(place.cwd, 'department.baybook'),
      isDemo: true,
      today: '2026-11-25',
    });
    expect(readdirSync(place.cwd)).toEqual(['department.baybook']);
    expect(await refused(['demo', ...FILE], place)).toMatchObject({ code: 'file exists', field: 'file' });
    const members: { name: string }[] = await ok(ask('members.list'), place);
    expect(members.filter(m => m.name === 'Terminal')).toHaveLength(1);
  });
});

describe('help', () => {
  it('lists every action and question with its shape, and the words they take', async () => {
    const cwd = scratchFolder();
    const { code, out, err } = await run(['--help'], { cwd });
    expect([code, err]).toEqual([0, '']);
    for (const { name, shape } of [...ACTIONS_HELP, ...QUESTIONS_HELP]) {
      expect(out).toContain(`\n${name}  `);
      expect(out).toContain(shape);
    }
    expect(ACTIONS_HELP.length).toBeGreaterThan(20);
    for (const { family, attributes, activities, requirements } of VOCABULARY_HELP.families) {
      expect(out).toContain(`family ${family}  `);
      for (const { key, title, unit } of attributes)
        expect(out).toContain(`    ${key}  ${title}${unit ? `, ${unit}` : ''} (`);
      for (const { activity } of activities) expect(out).toContain(`    ${activity}`);
      for (const { requirement } of requirements) expect(out).toContain(`    ${requirement}  `);
    }
    const families = VOCABULARY_HELP.families.map(f => f.family);
    expect(families).toEqual(expect.arrayContaining(['cylinder', 'hose', 'ladder', 'pack']));
    for (const outcome of VOCABULARY_HELP.outcomes) expect(out).toContain(outcome);
    expect(existsSync(join(cwd, 'data'))).toBe(false);
  });
});
