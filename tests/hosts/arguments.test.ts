/** What was typed, read as a command, and what is said where it is none. Our own design, no source. */
import { describe, expect, it } from 'vitest';
import { readCommand } from '../../electron/terminal/args.ts';
import { typedPath } from '../../electron/terminal/department.ts';

describe('a command', () => {
  it('asks a question, with arguments or without', () => {
    expect(readCommand(['ask', 'due.list', '{"on":"2026-11-25"}', '--file', 'a.baybook'])).toEqual({
      name: 'ask',
      question: 'due.list',
      args: { on: '2026-11-25' },
      file: 'a.baybook',
    });
    expect(readCommand(['ask', 'members.list'])).toEqual({ name: 'ask', question: 'members.list', args: {} });
  });

  it('acts with a list of deeds, or one', () => {
    const deed = { action: 'station.add', body: { name: 'Station 31' } };
    const deeds = [deed];
    expect(readCommand(['act', JSON.stringify(deeds), '--by', '214'])).toEqual({
      name: 'act',
      deeds,
      photos: [],
      by: '214',
    });
    expect(readCommand(['act', JSON.stringify(deed), '--photo', 'a.jpg', '--photo=b.png'])).toEqual({
      name: 'act',
      deeds,
      photos: ['a.jpg', 'b.png'],
    });
  });

  it('brings in a sheet', () => {
    expect(readCommand(['import', 'hose.csv', '--family', 'hose', '--dry-run'])).toEqual({
      name: 'import',
      sheet: 'hose.csv',
      family: 'hose',
      dryRun: true,
      yes: false,
      dayOrder: null,
    });
    expect(readCommand(['--yes', '--family=hose', 'import', 'hose.csv', '--on', '2026-11-25'])).toMatchObject(
      {
        yes: true,
        on: '2026-11-25',
      },
    );
  });

  it('writes a paper to a file', () => {
    expect(readCommand(['paper', '{"paper":"rule sheet","family":"hose"}', '--to', 'hose.pdf'])).toEqual({
      name: 'paper',
      paper: { paper: 'rule sheet', family: 'hose' },
      to: 'hose.pdf',
    });
  });

  it('makes the demo department from a seed', () => {
    expect(readCommand(['demo', '--seed', '7', '--on', '2026-11-25'])).toEqual({
      name: 'demo',
      seed: 7,
      on: '2026-11-25',
    });
  });

  it('is help wherever help is asked for', () => {
    for (const typed of [['--help'], ['-h'], ['help'], ['ask', '--help'], ['nothing', '--help']])
      expect(readCommand(typed)).toEqual({ name: 'help' });
  });
});

describe('what is no command', () => {
  it.each([
    [[], 'usage', null],
    [['tell'], 'usage', 'command'],
    [['ask'], 'usage', 'question'],
    [['ask', 'due.list', '{}', 'more'], 'usage', null],
    [['ask', 'due.list', '{on}'], 'bad JSON', 'arguments'],
    [['ask', 'due.list', '[]'], 'bad JSON', 'arguments'],
    [['ask', 'due.list', 'null'], 'bad JSON', 'arguments'],
    [['act'], 'usage', 'list of deeds'],
    [['act', '[1]'], 'bad JSON', 'deeds'],
    [['act', '['], 'bad JSON', 'deeds'],
    [['import', 'hose.csv'], 'usage', 'family'],
    [['import', '--family', 'hose'], 'usage', 'file'],
    [['paper', '{}'], 'usage', 'to'],
    [['paper', '--to', 'a.pdf'], 'usage', 'paper'],
    [['paper', '[]', '--to', 'a.pdf'], 'bad JSON', 'arguments'],
    [['ask', 'due.list', '--to', 'a.pdf'], 'usage', 'to'],
    [['demo', 'now'], 'usage', null],
    [['demo', '--seed', '1.5'], 'usage', 'seed'],
    [['demo', '--on', '25 Nov'], 'usage', 'on'],
    // The calendar: 2026 is no leap year.
    [['demo', '--on', '2026-02-29'], 'usage', 'on'],
    [['ask', 'due.list', '--yes'], 'usage', 'yes'],
    [['ask', 'due.list', '--photo', 'a.jpg'], 'usage', 'photo'],
    [['demo', '--family', 'hose'], 'usage', 'family'],
    [['ask', 'due.list', '--loud'], 'usage', null],
    [['ask', 'due.list', '--file'], 'usage', null],
  ])('is refused with what to do: %j', (typed, code, field) => {
    expect(() => readCommand(typed)).toThrow(
      expect.objectContaining({
        problem: expect.objectContaining({ code, field, todo: expect.stringMatching(/help/) }),
      }),
    );
  });
});

it('a path counts from where it was typed, which npm changes', () => {
  const npm = { npm_lifecycle_event: 'baybook', INIT_CWD: '/station' };
  expect(typedPath('hose.csv', npm)).toBe('/station/hose.csv');
  expect(typedPath('/sheets/hose.csv', npm)).toBe('/sheets/hose.csv');
  expect(typedPath('hose.csv', { INIT_CWD: '/station' })).toBe(`${process.cwd()}/hose.csv`);
});
