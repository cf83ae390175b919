/** The forms of deeds on a rig: who rides it, out of service and back, its meters, things moved together. */
import type { DepartmentSummary } from '../../../db/api.ts';
import type { LeftThing, RigItem, RigPage } from '../../../db/api-desk.ts';
import { capital } from '../../../domain/capital.ts';
import { HOW_KNOWN } from '../../../domain/facts.ts';
import { body, type DeedForm, dateOf, type FormField } from '../../parts/deeds/deedForm.ts';

type Rig = Pick<RigPage, 'id' | 'name' | 'unit' | 'unitId'>;

const NOBODY = 'nobody';
const on: FormField = { kind: 'date', key: 'on', title: 'Date' };
const how: FormField = {
  kind: 'one of',
  key: 'how',
  title: 'How it is known',
  choices: HOW_KNOWN.filter(h => h !== 'sheet').map(h => ({ value: h, title: capital(h) })),
};

/** A unit's crew takes the rig, or leaves it: what it carried stays where it is until it is moved. */
export function rideForm(rig: Rig, units: DepartmentSummary['units']): DeedForm {
  return {
    title: `Who rides ${rig.name}?`,
    verb: 'Write it down',
    initial: { unit: '', on: '', note: '' },
    rows: () => [
      [
        {
          kind: 'pick',
          key: 'unit',
          title: 'Unit',
          required: true,
          note: 'A unit that takes this rig leaves the one it rode. Gear stays where it is until it is moved.',
          choices: [
            ...units.filter(u => u.id !== rig.unitId).map(u => ({ value: u.id, title: u.name })),
            ...(rig.unit === null ? [] : [{ value: NOBODY, title: `Nobody: ${rig.unit} leaves it` }]),
          ],
        },
      ],
      [on, { kind: 'text', key: 'note', title: 'Note' }],
    ],
    deeds: (filled, today) => [
      {
        action: 'rig.ride',
        body: {
          ...body({ rig: rig.id, note: filled.note, on: dateOf(filled, today) }),
          unit: filled.unit === NOBODY ? null : filled.unit,
        },
      },
    ],
    done: filled =>
      filled.unit === NOBODY
        ? `Nobody rides ${rig.name} now.`
        : `${units.find(u => u.id === filled.unit)?.name ?? 'The unit'} rides ${rig.name}.`,
  };
}

export function takeOutForm(rig: Rig): DeedForm {
  return {
    title: `Take ${rig.name} out of service, or limit it`,
    verb: 'Write it down',
    initial: { condition: 'out of service', reason: '', on: '' },
    rows: () => [
      [
        {
          kind: 'one of',
          key: 'condition',
          title: 'From now on it is',
          choices: [
            { value: 'out of service', title: 'Out of service' },
            { value: 'limited', title: 'Limited' },
          ],
        },
      ],
      [
        {
          kind: 'text',
          key: 'reason',
          title: 'Reason',
          required: true,
          note: 'A driver or officer may take it out at once. This does not change dispatch status.',
        },
      ],
      [on],
    ],
    deeds: (filled, today) => [
      {
        action: 'rig.takeOut',
        body: { rig: rig.id, condition: filled.condition, reason: filled.reason, on: dateOf(filled, today) },
      },
    ],
    done: filled => `${rig.name} is ${filled.condition}.`,
  };
}

export function returnForm(rig: Rig): DeedForm {
  return {
    title: `Return ${rig.name} to service`,
    verb: 'Return to service',
    initial: { note: '', on: '' },
    rows: () => [
      [
        {
          kind: 'text',
          key: 'note',
          title: 'What was done',
          note: 'Only someone entitled returns it; the officer decides.',
        },
      ],
      [on],
    ],
    deeds: (filled, today) => [
      { action: 'rig.return', body: body({ rig: rig.id, note: filled.note, on: dateOf(filled, today) }) },
    ],
    done: () => `${rig.name} is back in service.`,
  };
}

/** Several things to one place, all or none. */
export function moveForm(items: readonly Pick<RigItem, 'item' | 'number'>[]): DeedForm {
  const what = items.length === 1 ? (items[0]?.number ?? '') : `${items.length} things`;
  return {
    title: `Move ${what}`,
    verb: 'Move',
    initial: { to: '', how: 'sight', on: '' },
    rows: () => [
      [{ kind: 'place', key: 'to', title: 'To', required: true, note: items.map(i => i.number).join(', ') }],
      [how],
      [on],
    ],
    deeds: (filled, today) =>
      items.map(({ item }) => ({
        action: 'item.move',
        body: body({ item, to: filled.to, how: filled.how, on: dateOf(filled, today) }),
      })),
    done: () => `${capital(what)} moved.`,
  };
}

/**
 * Brings a thing back to the rig it came from; the place on it may be named more nearly later. One that was reported
 * missing is found by that.
 */
export function bringHomeForm(thing: LeftThing): DeedForm {
  const { item, number, home, homeRig } = thing;
  const missing = thing.condition === 'missing';
  const note: FormField = {
    kind: 'text',
    key: 'note',
    title: 'Where it was found',
    note: 'It was reported missing. Found, it is tagged out until somebody entitled returns it.',
  };
  return {
    title: `${number} back to ${home}`,
    verb: 'It is back',
    initial: { how: 'sight', on: '', note: '' },
    rows: () => [[how], ...(missing ? [[note]] : []), [on]],
    deeds: (filled, today) => {
      const known = { item, how: filled.how, on: dateOf(filled, today) };
      return missing
        ? [{ action: 'item.found', body: body({ ...known, place: homeRig, note: filled.note }) }]
        : [{ action: 'item.move', body: body({ ...known, to: homeRig }) }];
    },
    done: () => (missing ? `${number} is found; it is tagged out on ${home}.` : `${number} is back.`),
  };
}
