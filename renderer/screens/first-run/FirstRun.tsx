import { useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import { problemsOf } from '../../api/problem.ts';
import { progressWords, useHostProgress } from '../../api/progress.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../../parts/Action.tsx';
import { rememberActing } from '../../parts/acting/acting.tsx';
import { problemsByField } from '../../parts/deeds/problemsByField.ts';
import { OneOf, TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { Picker } from '../../parts/picker/Picker.tsx';
import { Notice } from '../../parts/words/NotReady.tsx';
import { Cover } from '../../shell/Cover.tsx';
import { KINDS, PLACES, profileOf } from '../department/profileForm.ts';

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;
const ZONES = Intl.supportedValuesOf('timeZone').map(zone => ({
  value: zone,
  label: zone.replaceAll('_', ' '),
}));

const STATES = PLACES.map(({ value, title }) => ({ value, label: title }));

/** A file that holds no department yet: who it is for, where its days end, and who begins it. */
export function FirstRun() {
  const client = useQueryClient();
  const [filled, setFilled] = useState({
    name: '',
    zone: HERE,
    state: '',
    kind: '',
    'member.number': '',
    'member.name': '',
  });
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [sending, setSending] = useState(false);
  const [making, setMaking] = useState(false);
  const progress = useHostProgress(making);
  const { beside, rest } = problemsByField(problems, Object.keys(filled));
  const profile = profileOf(filled);
  const set = (key: keyof typeof filled) => (value: string) =>
    setFilled(before => ({ ...before, [key]: value }));

  async function open(event: FormEvent) {
    event.preventDefault();
    setSending(true);
    const answer = await host().act({
      by: null,
      deeds: [
        {
          action: 'department.open',
          body: {
            name: filled.name,
            zone: filled.zone,
            member: { number: filled['member.number'], name: filled['member.name'] },
            // What the book holds is the law and the standards of the United States.
            ...(profile.country === 'other' ? { book: 'empty' } : {}),
          },
        },
        ...(filled.state || filled.kind
          ? [{ action: 'profile.set', body: { ...profile, from: 'opening' } }]
          : []),
      ],
    });
    setSending(false);
    if (!answer.ok) {
      setProblems(problemsOf(answer));
      return;
    }
    // Who opened the department is who goes on.
    const members = await host().ask('members.list', {});
    const opener = members.ok && members.value.find(m => m.number === filled['member.number'].trim());
    if (opener) rememberActing(opener.id);
    await client.invalidateQueries();
  }
  async function seeDemo() {
    setSending(true);
    setMaking(true);
    const answer = await host().host({ command: 'demo' });
    setSending(false);
    setMaking(false);
    if (answer.ok) location.reload();
    else setProblems([answer.error]);
  }

  return (
    <Cover
      title="Whose equipment is this?"
      lead="This file is new. Say which department it belongs to and who begins it; everything else can follow, from a sheet or by hand."
    >
      <form className={formStyles.form} onSubmit={open} noValidate>
        {rest.map(p => (
          <Notice key={p.message} problem={p} />
        ))}
        <TextField
          label="Name of the department"
          value={filled.name}
          onChange={set('name')}
          problem={beside.get('name')}
          required
          first
        />
        <Picker
          label="Time zone"
          options={ZONES}
          value={ZONES.find(z => z.value === filled.zone) ?? { value: filled.zone, label: filled.zone }}
          onPick={option => set('zone')(option.value)}
          note="Its days end at midnight here. The Department screen can amend it later."
          problem={beside.get('zone')}
          required
        />
        <div className={formStyles.row}>
          <Picker
            label="State"
            options={STATES}
            value={STATES.find(s => s.value === filled.state) ?? null}
            onPick={option => set('state')(option.value)}
            note={
              profile.country === 'other'
                ? 'The book is of United States law and standards: it starts empty, and you adopt what is yours.'
                : 'Decides which rules are law here. Elsewhere: “Not in the United States”. It may be said later.'
            }
          />
          <OneOf label="It is" choices={KINDS} value={filled.kind} onChange={set('kind')} />
        </div>
        <div className={formStyles.row}>
          <TextField
            label="Your member number"
            value={filled['member.number']}
            onChange={set('member.number')}
            problem={beside.get('member.number')}
            required
          />
          <TextField
            label="Your name"
            value={filled['member.name']}
            onChange={set('member.name')}
            problem={beside.get('member.name')}
            note="You begin as the administrator."
            required
          />
        </div>
        {progress ? <p role="status">{progressWords(progress)}</p> : null}
        <div className={formStyles.foot}>
          <Action weight="quiet" onClick={() => void seeDemo()} disabled={sending}>
            See a demo department first
          </Action>
          <Action weight="main" hint="Enter" type="submit" disabled={sending}>
            {sending ? 'Writing…' : 'Open the department'}
          </Action>
        </div>
      </form>
    </Cover>
  );
}
