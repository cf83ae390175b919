/** The clocks of cylinders: a table by specification, or the permit that the department has confirmed. */
import { showWhen } from '../../calendar/show.ts';
import type { Book } from '../../rulebook/book.ts';
import type { Clock, ConstructionPeriod, Permit, SpecPeriod } from '../../rulebook/types.ts';
import { countOn, spanText } from './count.ts';
import { type ClockInput, dated, NONE, type Reading, UNJUDGED, whenAttribute } from './reading.ts';

/** The table's or the permit's word on one cylinder; null with the reason told where nothing can be judged. */
interface CylinderRule {
  months: number | null;
  lifeMonths: number | null | 'label';
  by: string;
}

function cylinderRule(
  input: ClockInput,
  specs: readonly SpecPeriod[],
  constructions: readonly ConstructionPeriod[],
): CylinderRule | null {
  const { book, tell } = input;
  const { attributes } = input.subject;
  const { spec, construction } = attributes;
  if (typeof spec === 'string' && spec !== '') {
    const line = specs.find(s => s.spec === spec);
    if (line) {
      const marked = line.unless && attributes[line.unless.attribute] === line.unless.is ? line.unless : null;
      return {
        months: marked ? marked.months : line.months,
        lifeMonths: line.lifeMonths,
        by: marked ? marked.clause : `Table 1, specification ${spec}`,
      };
    }
    const permit = permitFor(book, spec);
    if (permit) return { ...permit, by: `${spec}, as confirmed from ${permit.basis}` };
    tell?.(
      `${spec} is a permit that the department has not confirmed. Read the permit or the label in hand and confirm its construction, interval and life.`,
    );
    return null;
  }
  const line = constructions.find(c => c.construction === construction);
  if (line)
    return {
      ...line,
      by: `construction (${construction}); no specification or permit is on file, read the label`,
    };
  tell?.('Neither the specification or permit nor the construction of this cylinder is known.');
  return null;
}

/** A permit by its number: an exemption (`DOT-E`) of old is the special permit (`DOT-SP`) of the same number. Common practice. */
export function permitFor(book: Book, spec: string): Permit | undefined {
  const [letters, number] = spec.split(' ');
  return book.permits.get(spec) ?? book.permits.get(`${letters === 'DOT-E' ? 'DOT-SP' : 'DOT-E'} ${number}`);
}

/** The requalification of a cylinder by its table or its permit. */
export function cylinderPeriod(input: ClockInput, clock: Clock & { kind: 'cylinder period' }): Reading {
  const { counted, tell } = input;
  const rule = cylinderRule(input, clock.specs, clock.constructions);
  if (!rule) return UNJUDGED;
  if (rule.months === null) {
    tell?.(`Not requalified: ${rule.by}.`);
    return NONE;
  }
  const every = { months: rule.months };
  tell?.(`Every ${spanText(every)}, by ${rule.by}.`);
  if (counted) return dated('counted', countOn(input, counted.effective, every));
  const made = whenAttribute(input.subject.attributes, 'made');
  if (made === null) {
    tell?.('No requalification is on record and the manufacture month is not known.');
    return dated('first', null);
  }
  tell?.(
    `No requalification is on record; the first counts from the original test month marked on it, ${showWhen(made)}, not from purchase.`,
  );
  return dated('counted', countOn(input, made, every));
}

/** The end of a cylinder’s life by its table, its permit or its label. */
export function cylinderLife(input: ClockInput, clock: Clock & { kind: 'cylinder life' }): Reading {
  const { tell } = input;
  const { attributes } = input.subject;
  const rule = cylinderRule(input, clock.specs, clock.constructions);
  if (!rule) return UNJUDGED;
  const label = attributes.lifeLabel_months;
  const months = rule.lifeMonths === 'label' ? (typeof label === 'number' ? label : null) : rule.lifeMonths;
  if (rule.lifeMonths === 'label' && months === null) {
    tell?.(`By ${rule.by}, the label decides its life: enter the life printed on the label.`);
    return UNJUDGED;
  }
  if (months === null) {
    tell?.(`No fixed life: ${rule.by}.`);
    return NONE;
  }
  const made = whenAttribute(attributes, 'made');
  if (made === null) {
    tell?.('Its life counts from the manufacture month, which is not known.');
    return UNJUDGED;
  }
  tell?.(`Its life is ${spanText({ months })} from manufacture, by ${rule.by}.`);
  return dated('life', countOn(input, made, { months }));
}
