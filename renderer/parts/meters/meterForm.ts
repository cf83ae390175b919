/** Reading a meter of a rig or a tool; one that is less than before, or far more, is refused until it is explained. */
import { capital } from '../../../domain/capital.ts';
import { body, type DeedForm, dateOf } from '../deeds/deedForm.ts';

interface Metered {
  item: string;
  number: string;
  isRig: boolean;
}

export function meterForm({ item, number, isRig }: Metered, meters: readonly string[]): DeedForm {
  const [first = ''] = meters;
  return {
    title: `Read a meter of ${number}`,
    verb: 'Write it down',
    initial: { meter: first, reading: '', meterReplaced: '', readTwice: '', on: '' },
    rows: () => [
      [
        {
          kind: 'one of',
          key: 'meter',
          title: 'Meter',
          choices: meters.map(m => ({ value: m, title: capital(m) })),
        },
      ],
      [
        { kind: 'text', key: 'reading', title: 'Reading, whole', required: true },
        { kind: 'date', key: 'on', title: 'Date' },
      ],
      [
        {
          kind: 'tick',
          key: 'meterReplaced',
          title: 'The meter was replaced',
          note: 'Only then may it read less than before.',
        },
      ],
      [
        {
          kind: 'tick',
          key: 'readTwice',
          title: 'It was read twice',
          note: 'Asked of a reading that rose by more than 24 hours or 1,000 miles a day.',
        },
      ],
    ],
    deeds: (filled, today) => [
      {
        action: isRig ? 'rig.read' : 'item.read',
        body: body({
          [isRig ? 'rig' : 'item']: item,
          meter: filled.meter,
          reading: wholeOf(filled.reading),
          meterReplaced: filled.meterReplaced === 'yes',
          ...(filled.readTwice === 'yes' ? { readTwice: true } : {}),
          on: dateOf(filled, today),
        }),
      },
    ],
    done: filled => `${capital(filled.meter ?? '')} read: ${filled.reading}.`,
  };
}

/** A whole number, or what was typed in its place: the store says what is wrong with it. */
function wholeOf(typed = ''): number | string {
  const plain = typed.replaceAll(',', '').trim();
  return /^\d+$/.test(plain) ? Number(plain) : typed.trim();
}
