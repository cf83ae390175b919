/** May this bottle be filled: asked at the fill station, by the number on it. */
import { z } from 'zod';
import { cylinderDates } from '../../domain/acceptance/cylinder-dates.ts';
import { dayText } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import { type Derived, derive, lifeEndsOn } from '../../domain/derive/thing.ts';
import type { Fact } from '../../domain/facts.ts';
import { profileOn } from '../../domain/rulebook/force.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { fillOf } from '../../domain/supply/fill.ts';
import { byGravity, fillVerdict } from '../../domain/supply/fill-against.ts';
import { fillCautions } from '../../domain/supply/fill-cautions.ts';
import { againstFilling } from '../../domain/supply/fill-check.ts';
import { againstForeign } from '../../domain/supply/fill-foreign.ts';
import { lastTest } from '../../domain/supply/fill-mark.ts';
import { againstStation } from '../../domain/supply/fill-station.ts';
import type { Questions } from '../api.ts';
import type { FillCheck, FillSubject } from '../api-supply.ts';
import { readBook } from '../caches/book.ts';
import { asItemFacts, factsUntil } from '../caches/facts.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked, textOrNull, thingAsked } from './fields.ts';
import { placeNamer } from './supply-words.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

const psi = z.number().int().min(0).max(10_000).optional();

export const fillCheck = question({
  name: 'fill.check',
  title: 'May a cylinder be filled: who it is, the verdict, and what speaks against it with its clause',
  schema: z.strictObject({
    number: z.string().max(80).optional(),
    item: z.string().max(80).optional(),
    to_psi: psi,
    hydroDate: z
      .string()
      .regex(/^\d{4}(-\d{2}){0,2}$/)
      .optional(),
    servicePressure_psi: psi,
    compressor: z.string().max(80).optional(),
    on: day.optional(),
  }) as unknown as z.ZodType<Questions['fill.check']['takes']>,
  answer(asking, args): FillCheck {
    const on = dayAsked(asking, args.on);
    const book = readBook(asking.db);
    const found = cylindersCalled(asking, args);
    const [only, ...others] = found.cylinders;
    const station = args.compressor === undefined ? null : compressorAsked(asking, args.compressor);
    const ofStation = station
      ? againstStation(derivedOn(asking, station.key, dayText(on))?.derived ?? NOWHERE, book, on)
      : [];
    const filling = { on, to_psi: args.to_psi ?? null, hydroDate: (args.hydroDate ?? null) as When | null };
    const told = only && others.length === 0 ? derivedOn(asking, only.key, dayText(on)) : null;
    const subject = told && only ? asSubject(only) : null;
    const rated = told ? told.derived.attributes.servicePressure_psi : args.servicePressure_psi;
    const ofBottle = told
      ? againstFilling(told.derived, book, { ...filling, isAir: station !== null })
      : others.length > 0
        ? []
        : againstForeign(
            { hydroDate: filling.hydroDate, servicePressure_psi: args.servicePressure_psi ?? null },
            filling,
            profileOn(book.profiles, on),
          );
    const against = [...ofBottle, ...ofStation].sort(byGravity);
    const fills = (told?.derived.records ?? []).filter(
      r => r.values.activity === 'recharge' && r.values.outcome === 'pass',
    );
    const last = fills.at(-1);
    const gauge = last?.values.readings?.gauge_psi;
    const service_psi = typeof rated === 'number' && rated > 0 ? rated : null;
    return {
      number: only?.number ?? args.number ?? '',
      cylinder: subject,
      several: others.length > 0 ? found.cylinders.map(asSubject) : [],
      others: found.others,
      verdict: fillVerdict(against),
      against,
      lastHydro: told ? lastTest(told.derived) : null,
      requalifyBy: told ? textOrNull(cylinderDates(told.derived, book, on).requalifyBy) : null,
      lifeEndsOn: told ? textOrNull(lifeEndsOn(told.derived, on)) : null,
      servicePressure_psi: service_psi,
      lastFill: last ? { on: last.effective, to_psi: gauge === undefined ? null : Number(gauge) } : null,
      fill: told ? fillOf(told.facts, service_psi, placeNamer(asking)).fill : 'not known',
      cautions: fillCautions(told?.derived.attributes ?? {}),
    };
  },
  example: { number: 'C-208', to_psi: 4500 },
});

/** Never asked for: a compressor that was found has facts. */
const NOWHERE = { number: '', family: 'compressor', conditions: [], due: [] } as unknown as Derived;

interface Found extends FillSubject {
  key: number;
  family: string;
}

const asSubject = ({ key: _key, family: _family, ...subject }: Found): FillSubject => subject;

/** The cylinders that a number or a serial may mean, living ones where there are any; and what else bears it. */
function cylindersCalled(
  asking: Asking,
  { item, number }: { item?: string; number?: string },
): { cylinders: Found[]; others: string[] } {
  const wanted = (number ?? '').trim().toLowerCase();
  if (item === undefined && wanted === '')
    throw new CannotAnswer(
      'missing',
      'Neither a number nor an id is given.',
      'Give the number on the bottle.',
      'number',
    );
  const select = `SELECT i.key, t.id AS item, i.family, i.number, i.serial, i.what, p.path AS place, i.condition
    FROM items i JOIN things t ON t.key = i.key LEFT JOIN places p ON p.key = i.place_key WHERE`;
  const rows =
    item === undefined
      ? all<Found>(asking.db, `${select} lower(i.number) = :wanted`, { wanted })
      : all<Found>(asking.db, `${select} t.id = :item`, { item });
  const cylinders = rows.filter(r => r.family === 'cylinder');
  const byNumber =
    cylinders.length > 0 || item !== undefined
      ? cylinders
      : all<Found>(asking.db, `${select} i.family = 'cylinder' AND lower(i.serial) = :wanted`, { wanted });
  if (item !== undefined && byNumber.length === 0)
    throw new CannotAnswer('not found', `No cylinder has the id ${item}.`, 'Find it by its number.', 'item');
  const living = byNumber.filter(r => r.condition !== 'retired' && r.condition !== 'disposed');
  return {
    cylinders: living.length > 0 ? living : byNumber,
    others: rows
      .filter(r => r.family !== 'cylinder')
      .map(r => `${r.number} is a ${(familyOf(r.family)?.title ?? r.family).toLowerCase()} here: ${r.what}`),
  };
}

function compressorAsked(asking: Asking, named: string): { key: number } {
  const byId = all<{ key: number }>(
    asking.db,
    "SELECT i.key FROM items i JOIN things t ON t.key = i.key WHERE t.id = ? AND i.family = 'compressor'",
    named,
  );
  return byId[0] ?? thingAsked(asking, { number: named, family: 'compressor' });
}

function derivedOn(asking: Asking, key: number, at: string): { derived: Derived; facts: Fact[] } | null {
  const facts = asItemFacts(factsUntil(asking.db, key, at));
  const derived = derive(facts, readBook(asking.db));
  return derived && { derived, facts };
}
