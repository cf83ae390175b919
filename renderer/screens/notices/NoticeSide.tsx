/** Beside the list: what the notice names and asks for, and what is known of the row that has the cursor. */
import type { ReactNode } from 'react';
import type { NoticeLine, NoticePage, SettledLine } from '../../../db/api-notices.ts';
import { capital } from '../../../domain/capital.ts';
import { dateText } from '../../parts/words/dates.tsx';
import type { NoticeRow } from './columns.tsx';
import { kindWord } from './forms.ts';
import styles from './notices.module.css';

export function NoticeSide({ page, row }: { page: NoticePage; row: NoticeRow | undefined }) {
  return (
    <aside className={styles.side} aria-label="The notice, and the row">
      <h2>{kindWord(page)}</h2>
      <dl className={styles.facts}>
        <Fact term="Issued">
          {page.issuedBy}, {dateText(page.on)}
        </Fact>
        <Fact term="Names">{namedWords(page)}</Fact>
        <Fact term="To do">{page.toDo}</Fact>
        {page.byName ? <Fact term="Entered by">{page.byName}</Fact> : null}
        {page.closed ? (
          <Fact term="Closed">
            {dateText(page.closed.on)}
            {page.closed.byName ? `, ${page.closed.byName}` : ''}: {page.closed.note}
          </Fact>
        ) : null}
      </dl>
      {row ? <Row row={row} /> : null}
    </aside>
  );
}

function Row({ row: { thing, serial } }: { row: NoticeRow }) {
  const told = (thing ?? serial)?.settled ?? null;
  return (
    <section className={styles.row}>
      <h2>
        <span className="mono">{thing ? thing.number : serial?.serial}</span> {thing ? thing.what : ''}
      </h2>
      <dl className={styles.facts}>
        {thing && thing.look.length > 0 ? (
          <Fact term="Look at it">{capital(thing.look.join(', '))}</Fact>
        ) : null}
        {thing?.since && !thing.isRig ? (
          <Fact term="Condition">
            {capital(thing.condition)} since {dateText(thing.since.slice(0, 10))}
          </Fact>
        ) : null}
        {thing?.unit ? <Fact term="On">{thing.unit}</Fact> : null}
        {serial ? (
          <Fact term="Kept open">
            {dateText(serial.on)}
            {serial.byName ? `, ${serial.byName}` : ''}
            {serial.note ? `: ${serial.note}` : ''}
          </Fact>
        ) : null}
        <Fact term="Settled">{told ? settledWords(told) : 'not yet'}</Fact>
      </dl>
    </section>
  );
}

function Fact({ term, children }: { term: string; children: ReactNode }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** `Replaced, 6 Nov 2026, R. Alder: another was given out`. */
function settledWords({ how, on, byName, note }: SettledLine): string {
  const told = [capital(how), on === null ? null : dateText(on), byName].filter(t => t !== null).join(', ');
  return note ? `${told}: ${note}` : told;
}

/** What it names, in the order in which a label is read. */
function namedWords(n: NoticeLine): string {
  const made = span(n.madeFrom && dateText(n.madeFrom), n.madeTo && dateText(n.madeTo));
  const serials = span(n.serialFrom, n.serialTo);
  return [n.familyTitle, n.maker, n.model, serials && `serials ${serials}`, made && `made ${made}`]
    .filter(Boolean)
    .join(', ');
}

function span(from: string | null, to: string | null): string | null {
  if (from === null && to === null) return null;
  if (from === null) return `up to ${to}`;
  if (to === null) return `from ${from} on`;
  return from === to ? from : `${from} to ${to}`;
}
