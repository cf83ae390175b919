/**
 * The demo's diary: what was told on which day, at which time and by whom. It is planned subject by subject and
 * then written in the order of time, so that the ledger grows as it would have grown.
 */
import type { Day } from '../../../domain/calendar/day.ts';
import { dayText } from '../../../domain/calendar/day.ts';
import { showWhen } from '../../../domain/calendar/show.ts';
import type { When } from '../../../domain/calendar/when.ts';
import type { Deed } from '../../api.ts';
import { act } from '../../store/act.ts';
import type { Db } from '../../store/statements.ts';
import { instantOf } from './instants.ts';

/** What a planned deed calls a thing whose id the ledger has yet to give: `@hose 31-107`. */
export type Label = `@${string}`;

export interface Planned {
  action: string;
  /** Fields that start with `@` name things by their labels. */
  body: Record<string, unknown>;
  /** How later deeds call what this one brings. */
  as?: Label;
  /** How they call what it brings beside: label by the suffix of its id. */
  also?: Readonly<Record<string, Label>>;
}

interface Page {
  day: Day;
  instant: number;
  by: Label | null;
  deeds: readonly Planned[];
}

export type Progress = (done: number, total: number, what: string) => void;

export class Diary {
  readonly #pages: Page[] = [];
  readonly #latest: number;

  /** @param latest UTC milliseconds: what is planned for later was told then, since nobody can have told it yet */
  constructor(latest = Number.POSITIVE_INFINITY) {
    this.#latest = latest;
  }

  /** Plan what one member tells at one time: one act. @param time local, `07:40`, from 03:00 on */
  at(day: Day, time: string, by: Label | null, deeds: readonly Planned[]): void {
    if (deeds.length > 0) this.#pages.push({ day, instant: instantOf(day, time), by, deeds });
  }

  /** Where each thing that is in the department lies at a time, as far as is planned; what is away for repair is left out. */
  whereAt(day: Day, time: string): Map<Label, Label> {
    const lies = new Map<Label, Label>();
    const away = new Set<unknown>();
    const until = instantOf(day, time);
    const pages = this.#pages.filter(page => page.instant < until).sort((a, b) => a.instant - b.instant);
    for (const { action, body, as } of pages.flatMap(page => page.deeds)) {
      const item = (action === 'item.receive' ? as : body.item) as Label | undefined;
      const place = (action === 'item.move' ? body.to : body.place) as Label | undefined;
      if (item === undefined) continue;
      if (action === 'item.retire' || action === 'item.dispose') lies.delete(item);
      else if (action === 'item.sendToRepair') away.add(item);
      else if (action === 'item.return') away.delete(item);
      else if (place !== undefined) lies.set(item, place);
    }
    return new Map([...lies].filter(([item]) => !away.has(item)));
  }

  /**
   * Write the whole diary in one transaction: a demo is there or it is not.
   * @throws Error where a deed is refused or names what is not there yet: the plan is wrong
   */
  write(db: Db, progress: Progress): void {
    const pages = [...this.#pages].sort((a, b) => a.instant - b.instant);
    const total = pages.reduce((sum, page) => sum + page.deeds.length, 0);
    const ids = new Map<string, string>();
    let done = 0;
    let told = 0;
    db.transaction(() => {
      for (const page of pages) {
        const deeds = named(page, ids);
        const clock = { now: () => Math.min(page.instant, this.#latest), today: page.day };
        const by = page.by === null ? null : idOf(ids, page.by);
        const answer = act(db, clock, { by, deeds });
        if (!answer.ok) {
          const { message, todo, deed } = answer.error;
          throw new Error(
            `The demo's ${JSON.stringify(deeds[deed ?? 0])} of ${dayText(page.day)} was refused: ${message} ${todo}`,
          );
        }
        page.deeds.forEach((deed, i) => {
          const id = answer.value.entries[i] ?? '';
          if (deed.as) ids.set(deed.as, id);
          for (const [suffix, label] of Object.entries(deed.also ?? {})) ids.set(label, id + suffix);
        });
        done += page.deeds.length;
        if (done - told < 250 && done < total) continue;
        told = done;
        progress(done, total, `Writing ${showWhen(dayText(page.day).slice(0, 7) as When)}`);
      }
    })();
  }
}

/** A page's deeds with every label replaced by an id, or by the place in the list of what the same page brings. */
function named(page: Page, ids: ReadonlyMap<string, string>): Deed[] {
  const here = new Map<string, string>();
  return page.deeds.map(({ action, body, as }, i) => {
    const idsFor = (label: string) => here.get(label) ?? idOf(ids, label);
    const filled = filledIn(body, idsFor) as Record<string, unknown>;
    if (as) here.set(as, `&${i}`);
    return { action, body: filled };
  });
}

/** A value with every label in it replaced, however deep it lies. */
function filledIn(value: unknown, idsFor: (label: string) => string): unknown {
  if (typeof value === 'string') return value.startsWith('@') ? idsFor(value) : value;
  if (Array.isArray(value)) return value.map(v => filledIn(v, idsFor));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, v]) => [key, filledIn(v, idsFor)]));
}

function idOf(ids: ReadonlyMap<string, string>, label: string): string {
  const id = ids.get(label);
  if (id === undefined) throw new Error(`The demo names ${label} before it is there.`);
  return id;
}
