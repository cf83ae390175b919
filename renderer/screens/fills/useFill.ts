/** A fill as it is being entered: the bottle by its number, what is known of it, and what was read. */
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { Deed, Problem } from '../../../db/api.ts';
import type { FillCheck } from '../../../db/api-supply.ts';
import { STAYS } from '../../../domain/supply/fill-check.ts';
import { grouped } from '../../../domain/units.ts';
import { useAct } from '../../api/act.ts';
import { question, useAsk } from '../../api/ask.ts';
import { problemOf, problemsOf } from '../../api/problem.ts';
import { useActing } from '../../parts/acting/acting.tsx';
import { readDate } from '../../parts/form/readDate.ts';

export interface Entered {
  number: string;
  to_psi: string;
  from_psi: string;
  hydroDate: string;
  on: string;
  note: string;
  owner: string;
  marking: string;
  servicePressure_psi: string;
}

/** The fields by the names under which the store speaks of them. */
export type FieldKey = keyof Entered | 'by' | 'pin';

const NOTHING: Entered = {
  number: '',
  to_psi: '',
  from_psi: '',
  hydroDate: '',
  on: '',
  note: '',
  owner: '',
  marking: '',
  servicePressure_psi: '',
};

/** What the last fill came to. */
export interface Done {
  words: string;
  /** The bottle was pulled, or is to be set aside. */
  pulled: boolean;
}

/** A PIN is forgotten so long after the last fill: whoever walks away does not leave it. */
const PIN_KEPT_ms = 5 * 60_000;

const whole = (text: string): number | undefined => {
  const plain = text.replace(/[,\s]/g, '');
  return /^\d{1,6}$/.test(plain) ? Number(plain) : undefined;
};

/**
 * @param focus leads to a field
 * @param today the department's day
 */
export function useFill(focus: (field: FieldKey) => void, today: string) {
  const act = useAct();
  const client = useQueryClient();
  const { member } = useActing();
  const [entered, setEntered] = useState<Entered>(NOTHING);
  /** The number that was asked about, or the one of several that was chosen. */
  const [asked, setAsked] = useState<{ number?: string; item?: string } | null>(null);
  const [compressor, setCompressor] = useState<string | null>(null);
  const [pin, setPin] = useState('');
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  /** Enter was pressed on a bottle that is not to be filled: the next one logs it. */
  const [warned, setWarned] = useState(false);
  const [sending, setSending] = useState(false);
  const [done, setDone] = useState<Done | null>(null);

  const date = (text: string) => (text.trim() === '' ? undefined : readDate(text, today).text);
  const argsOf = (named: { number?: string; item?: string }) => {
    const [hydroDate, on] = [date(entered.hydroDate), date(entered.on)?.slice(0, 10)];
    const [to, rated] = [whole(entered.to_psi), whole(entered.servicePressure_psi)];
    return {
      ...named,
      ...(to !== undefined && to <= 10_000 ? { to_psi: to } : {}),
      ...(rated !== undefined && rated <= 10_000 ? { servicePressure_psi: rated } : {}),
      ...(hydroDate !== undefined && /^\d{4}(-\d{2}){0,2}$/.test(hydroDate) ? { hydroDate } : {}),
      ...(compressor === null ? {} : { compressor }),
      // What is entered for a day is judged by that day, here as in the entry.
      ...(on !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(on) ? { on } : {}),
    };
  };
  const check = useAsk('fill.check', argsOf(asked ?? { number: '-' }), { when: asked !== null, keep: true });
  const known = asked === null ? null : (check.data ?? null);
  // An answer that is kept while the next is on its way is of another bottle.
  const isOfIt = known !== null && asked !== null && isAnswerTo(known, asked);

  useEffect(() => {
    if (pin === '') return;
    const timer = setTimeout(() => setPin(''), PIN_KEPT_ms);
    return () => clearTimeout(timer);
  }, [pin]);
  // A PIN is one member's: whoever else fills now types their own.
  // biome-ignore lint/correctness/useExhaustiveDependencies: when another acts, and at no other time.
  useEffect(() => setPin(''), [member?.id]);

  function set(key: keyof Entered, value: string): void {
    setEntered(before => ({ ...before, [key]: value }));
    setProblems(before => before.filter(p => p.field !== key));
    setWarned(false);
    if (key === 'number' && value.trim() !== '') setDone(null);
    if (key === 'number') setAsked(null);
  }

  function choose(item: string): void {
    setAsked({ item });
    setWarned(false);
    focus('to_psi');
  }

  function refuse(told: readonly Problem[]): void {
    setProblems(told);
    const [first] = told;
    if (first?.field) focus(fieldOf(first.field));
  }

  /** Enter: asks for the bottle, then logs it; where something forbids it, only when it is pressed again. */
  async function submit(): Promise<void> {
    if (sending) return;
    const number = entered.number.trim();
    if (number === '') return focus('number');
    const named = asked ?? { number };
    if (asked === null) {
      setAsked(named);
      focus('to_psi');
      if (entered.to_psi.trim() === '') return;
    }
    let told: FillCheck;
    try {
      told = await client.fetchQuery(question('fill.check', argsOf(named)));
    } catch (error) {
      return refuse([problemOf(error)]);
    }
    if (told.several.length > 0) return;
    const missing = missingIn(entered, told.cylinder === null, member !== null);
    if (missing) return refuse([missing]);
    if (told.verdict === 'do not fill' && !warned) return setWarned(true);
    await log(told);
  }

  async function log(told: FillCheck): Promise<void> {
    if (!member) return;
    setSending(true);
    const answer = await act({
      by: member.id,
      ...(member.hasPin ? { pin } : {}),
      deeds: [deedOf(told, entered, compressor, date)],
    });
    setSending(false);
    if (!answer.ok) return refuse(problemsOf(answer));
    setDone(doneWith(told, entered));
    setEntered({ ...NOTHING, on: entered.on });
    setAsked(null);
    setWarned(false);
    setProblems([]);
    focus('number');
  }

  return {
    entered,
    set,
    submit,
    choose,
    check: isOfIt ? known : null,
    asking: asked !== null && !isOfIt,
    failed: check.error,
    compressor,
    setCompressor,
    pin,
    setPin,
    problemOf: (key: FieldKey) => problems.find(p => p.field !== null && fieldOf(p.field) === key),
    others: problems.filter(p => p.field === null),
    warned,
    sending,
    done,
    isForeign: isOfIt && known !== null && known.cylinder === null && known.several.length === 0,
  };
}

export type Fill = ReturnType<typeof useFill>;

function isAnswerTo(known: FillCheck, asked: { number?: string; item?: string }): boolean {
  if (asked.item !== undefined) return asked.item === known.cylinder?.item;
  const names = [known, ...(known.cylinder ? [known.cylinder] : []), ...known.several].flatMap(n => [
    n.number,
    ...('serial' in n && n.serial ? [n.serial] : []),
  ]);
  return names.some(n => n.toLowerCase() === asked.number?.toLowerCase());
}

const FIELDS: Readonly<Record<string, FieldKey>> = {
  item: 'number',
  compressor: 'number',
  'foreign.number': 'number',
  'foreign.owner': 'owner',
  'foreign.marking': 'marking',
  'foreign.servicePressure_psi': 'servicePressure_psi',
};
const fieldOf = (field: string): FieldKey => FIELDS[field] ?? (field as FieldKey);

function missingIn(entered: Entered, isForeign: boolean, isSigned: boolean): Problem | null {
  const problem = (field: FieldKey, message: string, todo: string): Problem => ({
    code: 'empty',
    message,
    todo,
    field,
  });
  if (isForeign && entered.owner.trim() === '')
    return problem('owner', 'The owner is empty.', 'Read it on the bottle, or correct the number.');
  for (const key of ['to_psi', 'from_psi', 'servicePressure_psi'] as const)
    if ((key === 'to_psi' || entered[key].trim() !== '') && whole(entered[key]) === undefined)
      return entered[key].trim() === ''
        ? problem(key, 'The pressure is empty.', 'Enter what the gauge read.')
        : problem(key, `${entered[key]} is no pressure.`, 'Enter whole psi: 4500.');
  return isSigned ? null : problem('by', 'Nobody has signed.', 'Choose who fills.');
}

function deedOf(
  told: FillCheck,
  entered: Entered,
  compressor: string | null,
  date: (text: string) => string | undefined,
): Deed {
  const { from_psi, note, owner, marking, servicePressure_psi } = entered;
  const [hydroDate, on] = [date(entered.hydroDate), date(entered.on)];
  const rated = whole(servicePressure_psi);
  return {
    action: 'cylinder.fill',
    body: {
      ...(told.cylinder === null
        ? {
            foreign: {
              number: entered.number.trim(),
              owner: owner.trim(),
              ...(marking.trim() === '' ? {} : { marking: marking.trim() }),
              ...(rated === undefined ? {} : { servicePressure_psi: rated }),
            },
          }
        : { item: told.cylinder.item }),
      ...(compressor === null ? {} : { compressor }),
      ...(from_psi.trim() === '' ? {} : { from_psi: whole(from_psi) }),
      to_psi: whole(entered.to_psi),
      ...(hydroDate === undefined ? {} : { hydroDate }),
      ...(note.trim() === '' ? {} : { note: note.trim() }),
      ...(on === undefined ? {} : { on }),
    },
  };
}

function doneWith(told: FillCheck, entered: Entered): Done {
  const number = told.cylinder?.number ?? entered.number.trim();
  const logged = `${number} is logged: ${grouped(whole(entered.to_psi) ?? 0)} psi.`;
  const pulls = told.against.some(a => a.pulls);
  if (!pulls) return { words: logged, pulled: false };
  if (told.cylinder === null)
    return { words: `${logged} Set it aside and tell its owner why.`, pulled: true };
  return STAYS.has(told.cylinder.condition)
    ? { words: `${logged} It stays ${told.cylinder.condition}.`, pulled: true }
    : { words: `${logged} It is tagged out: take it away from the full ones.`, pulled: true };
}
