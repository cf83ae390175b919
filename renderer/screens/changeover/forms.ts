/** The signature under a leg, which says what it does before it is given. */
import type { ChangeoverPage } from '../../../db/api-changeovers.ts';
import { body, type DeedForm, dateOf } from '../../parts/deeds/deedForm.ts';
import { clockNow, clockOf, clockProblems } from '../../parts/form/clock.ts';
import { type Exceptions, movedOf, rowsOf } from './rows.ts';

const count = (n: number, one: string, many = `${one}s`): string =>
  `${n.toLocaleString('en-US')} ${n === 1 ? one : many}`;

export function changeoverForm(page: ChangeoverPage, exceptions: Exceptions, today: string): DeedForm {
  const rows = rowsOf(page, false).filter(r => r.kind === 'moves');
  const left = rows.filter(r => exceptions[r.key] !== undefined);
  const things = rows.filter(r => r.thing !== null);
  const moving = things.filter(r => exceptions[r.key] === undefined).length;
  const counts = rows.length - things.length;
  const { unit, from, to } = page;
  return {
    title:
      unit.name === from.name
        ? `${unit.name} changes to ${to.name}`
        : `${unit.name} leaves ${from.name} for ${to.name}`,
    verb: 'Sign this leg',
    initial: { at: clockNow(today).slice(11), how: 'told', note: '', on: '' },
    says: filled => [
      `${unit.name} rides ${to.name} from then on, and ${count(moving, 'numbered thing')}${counts > 0 ? ` and what is counted on ${count(counts, 'line')}` : ''} ${moving + counts === 1 ? 'lies' : 'lie'} there.`,
      ...(left.length > 0
        ? [
            `Everything moved except ${left
              .map(r => {
                const { planned, moved } = movedOf(r, exceptions);
                return r.thing === null
                  ? `${r.line?.what ?? ''} (${moved} of ${planned} moved)`
                  : `${r.number} ${r.what}`;
              })
              .join('; ')}.`,
          ]
        : []),
      filled.how === 'sight'
        ? 'Each thing counts as seen on the rig that is taken.'
        : 'It is kept as told: nothing counts as seen until somebody looks.',
    ],
    rows: () => [
      [
        {
          kind: 'text',
          key: 'at',
          title: 'Clock time of the change',
          required: true,
          note: 'When the crew was on the other rig, as on the sheet: 0910.',
        },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
      [
        {
          kind: 'one of',
          key: 'how',
          title: 'How it was made sure of',
          choices: [
            { value: 'told', title: 'Everything moved, nobody ticked each' },
            { value: 'sight', title: 'Ticked on the sheet, thing by thing' },
          ],
        },
      ],
      [{ kind: 'text', key: 'note', title: 'Note' }],
    ],
    check: filled => clockProblems(filled, 'at'),
    deeds: (filled, day) => [
      {
        action: 'rig.changeover',
        body: {
          ...body({ note: filled.note }),
          unit: unit.id,
          from: from.id,
          to: to.id,
          except: left
            .filter(r => r.thing !== null)
            .map(r => ({ item: r.key, ...body({ why: exceptions[r.key]?.why }) })),
          counted: left
            .filter(r => r.thing === null)
            .map(r => ({
              line: r.key,
              moved: exceptions[r.key]?.moved ?? 0,
              ...body({ why: exceptions[r.key]?.why }),
            })),
          how: filled.how,
          saw: things.map(r => r.key),
          on: clockOf(filled.at ?? '', dateOf(filled, day)),
        },
      },
    ],
    done: () =>
      `${unit.name} ${page.back ? 'is back on its own rig' : `rides ${to.name}`}.${left.length > 0 ? ' What was left out is kept with the leg.' : ''}`,
  };
}
