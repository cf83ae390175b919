import { describe, expect, it } from 'vitest';
import { clockOf, clockProblems } from '../../renderer/parts/form/clock.ts';

const TODAY = '2026-11-29';

describe('a clock time as it is written on a sheet', () => {
  it.each([
    ['0910', `${TODAY}T09:10`],
    ['9:10', `${TODAY}T09:10`],
    ['23.59', `${TODAY}T23:59`],
    ['00 00', `${TODAY}T00:00`],
  ])('%s is read', (typed, read) => {
    expect(clockProblems({ at: typed }, 'at')).toEqual([]);
    expect(clockOf(typed, TODAY)).toBe(read);
  });

  it.each(['24:00', '0960', 'noon', '910 pm', '9'])(
    '%s is refused under its field, as it was typed',
    typed => {
      const [problem] = clockProblems({ at: typed }, 'at');
      expect(problem).toMatchObject({ field: 'at', message: `“${typed}” is no clock time.` });
    },
  );

  it('says that none is given where the field is empty', () => {
    expect(clockProblems({}, 'at')[0]?.message).toBe('No clock time is given.');
  });
});
