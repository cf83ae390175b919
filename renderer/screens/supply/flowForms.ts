/** Forms of what comes and goes: received, issued, moved, written off. */
import type { DepartmentSummary } from '../../../db/api.ts';
import type { SupplyLine } from '../../../db/api-supply.ts';
import { capital } from '../../../domain/capital.ts';
import { amountWords } from '../../../domain/supply/boxes.ts';
import { body, type DeedForm, dateOf, type Filled, type FormField } from '../../parts/deeds/deedForm.ts';
import { readDate } from '../../parts/form/readDate.ts';
import { amountIn, amountNote, amountProblems, lotWords } from './amounts.ts';

const ANY = 'soonest expiry first';
const NO_LOT = 'without a lot';
const NOBODY = 'nobody named';

const on: FormField = { kind: 'date', key: 'on', title: 'On' };
const amountField = (line: SupplyLine): FormField => ({
  kind: 'text',
  key: 'amount',
  title: 'How many',
  required: true,
  note: amountNote(line.perBox),
});

/** What lies there, said over the fields. */
function lies({ lots, perBox }: SupplyLine): string {
  const told = lots.map(l => {
    const of = l.lot === null ? '' : ` of ${lotWords(l)}`;
    const but = l.onHand < 0 ? ' (a count is owed)' : l.state === 'expired' ? ' (expired)' : '';
    return `${amountWords(l.onHand, perBox)}${of}${but}`;
  });
  return told.length === 0 ? 'None is known to be there.' : `There: ${told.join('; ')}.`;
}

/** The lots that lie there, to name one. */
const lotField = (line: SupplyLine, any: string): FormField => ({
  kind: 'pick',
  key: 'lot',
  title: 'Which lot',
  choices: [
    { value: ANY, title: any },
    ...line.lots.map(l => ({
      value: l.lot ?? NO_LOT,
      title: capital(lotWords(l)),
      detail: `${amountWords(l.onHand, line.perBox)}${l.state === 'expired' ? ', expired' : ''}`,
    })),
  ],
});

/** What every deed of these says. */
const common = (line: SupplyLine, filled: Filled, today: string) => ({
  ...body({
    stock: line.stock,
    lot: filled.lot === ANY ? '' : filled.lot === NO_LOT ? null : filled.lot,
    note: filled.note,
    on: dateOf(filled, today),
  }),
  amount: amountIn(filled, 'amount', line.perBox),
});

const check = (line: SupplyLine) => (filled: Filled) => amountProblems(filled, ['amount'], line.perBox, 1);

const doneWith = (line: SupplyLine, did: string) => (filled: Filled) =>
  `${line.what}: ${amountWords(amountIn(filled, 'amount', line.perBox), line.perBox)} ${did}.`;

export function receiveForm(line: SupplyLine): DeedForm {
  return {
    title: `Receive ${line.what}`,
    verb: 'Receive',
    initial: { place: line.place ?? '', on: '' },
    rows: () => [
      [amountField(line), on],
      [
        { kind: 'text', key: 'lot', title: 'Lot', note: 'As printed; empty where there is none.' },
        {
          kind: 'text',
          key: 'expires',
          title: 'Expires',
          note: 'As printed: Mar 2028, 3/14/2028. A month is good to its end.',
        },
      ],
      [
        {
          kind: 'place',
          key: 'place',
          title: 'Where it was put',
          required: true,
          named: line.placeName ?? undefined,
        },
      ],
    ],
    check: check(line),
    deeds: (filled, today) => [
      {
        action: 'stock.receive',
        body: {
          ...common(line, filled, today),
          place: filled.place,
          ...(filled.expires?.trim() ? { expires: readDate(filled.expires, today).text } : {}),
        },
      },
    ],
    done: doneWith(line, 'received'),
  };
}

export function issueForm(line: SupplyLine, summary: DepartmentSummary): DeedForm {
  return {
    title: `Issue ${line.what} from ${line.placeName}`,
    verb: 'Issue',
    initial: { lot: ANY, to: NOBODY, on: '' },
    says: () => [lies(line)],
    rows: () => [
      [amountField(line), on],
      [lotField(line, 'The soonest expiry first, never an expired one')],
      [
        {
          kind: 'pick',
          key: 'to',
          title: 'To',
          choices: [
            { value: NOBODY, title: 'Nobody named' },
            ...summary.units.map(u => ({ value: u.id, title: u.name })),
            ...summary.stations.map(s => ({ value: s.id, title: s.name })),
          ],
          note: 'It is used there and counted no longer. To go on counting it, move it.',
        },
        { kind: 'text', key: 'note', title: 'What for' },
      ],
    ],
    check: check(line),
    deeds: (filled, today) => [
      {
        action: 'stock.issue',
        body: {
          ...common(line, filled, today),
          place: line.place,
          ...(filled.to && filled.to !== NOBODY ? { to: filled.to } : {}),
        },
      },
    ],
    done: doneWith(line, 'issued'),
  };
}

export function moveForm(line: SupplyLine): DeedForm {
  return {
    title: `Move ${line.what} from ${line.placeName}`,
    verb: 'Move',
    initial: { lot: ANY, on: '' },
    says: () => [lies(line)],
    rows: () => [
      [amountField(line), on],
      [{ kind: 'place', key: 'to', title: 'Where to', required: true }],
      [lotField(line, 'The soonest expiry first, never an expired one')],
      [{ kind: 'text', key: 'note', title: 'Why' }],
    ],
    check: check(line),
    deeds: (filled, today) => [
      { action: 'stock.move', body: { ...common(line, filled, today), from: line.place, to: filled.to } },
    ],
    done: doneWith(line, 'moved'),
  };
}

export function writeOffForm(line: SupplyLine): DeedForm {
  const expired = line.lots.find(l => l.state === 'expired' && l.onHand > 0);
  return {
    title: `Write off ${line.what} at ${line.placeName}`,
    verb: 'Write it off',
    initial: {
      lot: expired ? (expired.lot ?? NO_LOT) : ANY,
      amount: expired ? String(expired.onHand) : '',
      why: expired ? 'Expired' : '',
      on: '',
    },
    says: () => [lies(line)],
    rows: () => [
      [amountField(line), on],
      [lotField(line, 'The only one there')],
      [{ kind: 'text', key: 'why', title: 'Why', required: true, note: 'Expired, torn, lost, spoiled…' }],
    ],
    check: check(line),
    deeds: (filled, today) => [
      {
        action: 'stock.writeOff',
        body: { ...common(line, filled, today), place: line.place, why: filled.why },
      },
    ],
    done: doneWith(line, 'written off'),
  };
}
