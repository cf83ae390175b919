/** What becomes of one row: of what is missing, which thing a doubtful number is, whose a foreign one is. */
import { type FormEvent, useState } from 'react';
import type { IncidentPage, IncidentRig } from '../../../db/api-incidents.ts';
import { likelyWhose } from '../../../domain/incident/likely.ts';
import type { MissingAs } from '../../../domain/incident/settlement.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { OneOf, TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { type Chosen, choiceKey, type Row } from './rows.ts';

interface DecideProps {
  page: IncidentPage;
  rig: IncidentRig;
  row: Row;
  chosen: Chosen;
  onClose: () => void;
  onChoose: (chosen: Chosen) => void;
}

/** Whether there is something to decide on a row. */
export const isToDecide = (row: Row): boolean =>
  row.is === 'missing' || row.is === 'duplicated' || row.is === 'foreign';

export function DecideDialog(props: DecideProps) {
  if (props.row.is === 'missing') return <Missing {...props} />;
  return props.row.is === 'duplicated' ? <Which {...props} /> : <Whose {...props} />;
}

function Missing({ row, chosen, onClose, onChoose }: DecideProps) {
  const { lost } = row;
  const before = lost ? chosen.missing[lost.thing.item] : undefined;
  const isReported = lost?.thing.condition === 'missing';
  const [as, setAs] = useState<MissingAs>(before?.as ?? (isReported ? 'leave' : 'missing'));
  const [where, setWhere] = useState(before?.where ?? '');
  const [wrong, setWrong] = useState(false);
  if (!lost) return null;
  const send = () => {
    if (as === 'searched' && where.trim() === '') setWrong(true);
    else
      onChoose({
        ...chosen,
        missing: {
          ...chosen.missing,
          [lost.thing.item]: { as, ...(as === 'searched' ? { where: where.trim() } : {}) },
        },
      });
  };
  return (
    <Frame title={`${row.number} was found nowhere`} onClose={onClose} onSend={send}>
      <Reasons row={row} />
      <OneOf
        label="What becomes of it"
        value={as}
        onChange={value => setAs(value as MissingAs)}
        choices={[
          ...(isReported ? [] : [{ value: 'missing', title: 'Reported missing' }]),
          { value: 'searched', title: 'Missing, and searched for' },
          { value: 'leave', title: 'Left as it is for now' },
        ]}
        first
      />
      {as === 'searched' ? (
        <TextField
          label="Where it was searched for"
          value={where}
          onChange={setWhere}
          required
          problem={wrong ? { message: 'It is not said where.', todo: 'Say where.' } : undefined}
        />
      ) : null}
    </Frame>
  );
}

/** Everybody who may have it, the likeliest first: where to ask. */
function Reasons({ row }: { row: Row }) {
  const likely = row.lost?.likely ?? [];
  if (likely.length === 0) return <p className={formStyles.said}>Nobody who was there likely has it.</p>;
  return (
    <>
      {likely.map(h => (
        <p key={`${h.rig} ${h.name}`} className={formStyles.said}>
          <b>{h.name}</b>: {h.reasons.join('; ')}.
        </p>
      ))}
    </>
  );
}

function Which({ rig, row, chosen, onClose, onChoose }: DecideProps) {
  const key = choiceKey(rig.rig, row.number);
  const could = row.read?.could ?? [];
  const [item, setItem] = useState(chosen.which[key] ?? '');
  const { [key]: _gone, ...rest } = chosen.which;
  return (
    <Frame
      title={`Which thing is ${row.number} on ${rig.name}?`}
      onClose={onClose}
      onSend={() => onChoose({ ...chosen, which: item === '' ? rest : { ...rest, [key]: item } })}
    >
      <OneOf
        label="It is"
        value={item}
        onChange={setItem}
        choices={[
          ...could.map(t => ({
            value: t.item,
            title: `${t.number} ${t.what}, believed in ${t.where || 'no place'}`,
          })),
          { value: '', title: 'Not known, or misread: nothing is done on it' },
        ]}
        first
      />
    </Frame>
  );
}

function Whose({ page, rig, row, chosen, onClose, onChoose }: DecideProps) {
  const key = choiceKey(rig.rig, row.number);
  const [whose, setWhose] = useState(
    chosen.whose[key] ?? (page.agencies.length === 1 ? page.agencies[0] : '') ?? '',
  );
  const likely = row.read ? likelyWhose(row.read, page.agencies) : [];
  return (
    <Frame
      title={`Whose is ${row.number}?`}
      onClose={onClose}
      onSend={() => onChoose({ ...chosen, whose: { ...chosen.whose, [key]: whose.trim() } })}
    >
      {row.read && row.read.near.length > 0 ? (
        <p className={formStyles.said}>
          Read it again: {row.read.near.map(t => t.number).join(', ')}{' '}
          {row.read.near.length === 1 ? 'is' : 'are'} missing and{' '}
          {row.read.near.length === 1 ? 'differs' : 'differ'} by one character.
        </p>
      ) : null}
      <TextField
        label="Taken for"
        value={whose}
        onChange={setWhose}
        note={likely.length > 0 ? `Likely ${likely.join(', or ')}.` : 'Empty where nobody knows.'}
        first
      />
    </Frame>
  );
}

function Frame({
  title,
  onClose,
  onSend,
  children,
}: {
  title: string;
  onClose: () => void;
  onSend: () => void;
  children: React.ReactNode;
}) {
  const send = (event: FormEvent) => {
    event.preventDefault();
    onSend();
  };
  return (
    <Dialog title={title} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        {children}
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            So it is
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
