/**
 * Full cylinders against seats. The 90 percent at which a cylinder is full and the month within which it is read are
 * 29 CFR 1910.134(h)(3)(iii) (public text, 2015 annual edition); a bottle for each seat is common practice, no source.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { When } from '../../../domain/calendar/when.ts';
import { airOnRig, airTells, isOfScba } from '../../../domain/coverage/full-cylinders.ts';
import type { FillKnown } from '../../../domain/supply/fill.ts';
import { day } from '../notation.ts';

const ON = day('2026-11-25');
const full = (since: string): FillKnown => ({ fill: 'full', since: since as When });
const low: FillKnown = { fill: 'to be filled', since: '2026-11-24' as When };
const unread: FillKnown = { fill: 'not known', since: null };
const tells = (seats: number, ...cylinders: FillKnown[]) => airTells(airOnRig(seats, cylinders, ON));
const TODAY = full('2026-11-25');

describe('a rig of six seats', () => {
  it('with a full cylinder for each is told nothing of', () => {
    expect(tells(6, ...Array(6).fill(TODAY))).toEqual([]);
    expect(tells(6, ...Array(6).fill(TODAY), low, unread)).toEqual([]);
  });

  it('with five full ones is limited, and the reason says how many are to be filled', () => {
    expect(tells(6, ...Array(5).fill(TODAY), low, low)).toEqual([
      { effect: 'limits', what: '5 of 6 seats have a full cylinder: 2 to be filled' },
    ]);
    expect(tells(6, ...Array(5).fill(TODAY))).toEqual([
      { effect: 'limits', what: '5 of 6 seats have a full cylinder: no more are on the rig' },
    ]);
  });

  it('that hangs on cylinders nobody has read is told so, and not limited for it', () => {
    expect(tells(6, ...Array(4).fill(TODAY), unread, unread, unread)).toEqual([
      { effect: 'notes', what: '3 of 7 cylinders are not known to be full: nobody has read them yet' },
    ]);
    expect(tells(6, ...Array(4).fill(TODAY), unread, low)).toEqual([
      { effect: 'limits', what: '4 of 6 seats have a full cylinder, 1 more may have: 1 to be filled' },
      { effect: 'notes', what: '1 of 6 cylinders is not known to be full: nobody has read it yet' },
    ]);
  });
});

it('a cylinder that was full is taken for full for a month after it was read, and no longer', () => {
  expect(tells(1, full('2026-10-25'))).toEqual([]);
  expect(tells(1, full('2026-10-24'))).toEqual([
    {
      effect: 'notes',
      what: '1 of 1 cylinder is not known to be full: nobody has read it since 24 Oct 2026',
    },
  ]);
  // Read some time in October is read by its first day, for no news is not good news.
  expect(tells(1, full('2026-10'))[0]?.what).toContain('since 1 Oct 2026');
});

it('one that is to be filled is so until it is filled, however long ago that was read', () => {
  expect(tells(1, { fill: 'to be filled', since: '2024-01-01' as When })[0]?.effect).toBe('limits');
});

it('where no seats are known nothing is said', () => expect(tells(0, low, unread)).toEqual([]));

it('one more full cylinder never tells more against a rig', () => {
  const cylinder = fc.constantFrom(TODAY, low, unread, full('2026-01-01'));
  const weight = (told: ReturnType<typeof tells>) =>
    told.some(t => t.effect === 'limits') ? 2 : told.length > 0 ? 1 : 0;
  fc.assert(
    fc.property(fc.nat({ max: 8 }), fc.array(cylinder, { maxLength: 10 }), (seats, cylinders) => {
      expect(weight(tells(seats, ...cylinders, TODAY))).toBeLessThanOrEqual(
        weight(tells(seats, ...cylinders)),
      );
    }),
  );
});

it('oxygen, a cascade bottle and an air bag’s are no cylinders of an SCBA', () => {
  expect([isOfScba({}), isOfScba({ gas: 'air' }), isOfScba({ use: 'SCBA', gas: 'compressed air' })]).toEqual([
    true,
    true,
    true,
  ]);
  expect([
    isOfScba({ gas: 'oxygen' }),
    isOfScba({ use: 'cascade' }),
    isOfScba({ use: 'air bag', gas: 'air' }),
  ]).toEqual([false, false, false]);
});
