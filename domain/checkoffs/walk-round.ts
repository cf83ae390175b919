/** What the answers of a walk-round do to a rig, each in a sentence with its figure, its limit and its source. */
import { compare, type Decimal, decimalOf } from '../derive/decimal.ts';
import { isConfirmed } from '../rulebook/force.ts';
import type { Source } from '../rulebook/types.ts';
import { cited } from '../rulebook/words.ts';
import { CRITERIA } from './criteria.ts';
import { COMMON_PRACTICE } from './criteria-sources.ts';
import { type Criterion, NOT_FITTED, type Rule } from './criterion.ts';

/** What an answer says of the rig. */
export interface Finding {
  /** The criterion's id. */
  criterion: string;
  /** A sentence without its full stop. */
  text: string;
}

export interface NotJudged extends Finding {
  /** Whether the answer could be read, and only what it means is to be confirmed. */
  isRead: boolean;
}

export interface RigJudgement {
  /** What puts the rig out of service. */
  out: Finding[];
  /** What leaves it in service with limits. */
  limited: Finding[];
  notes: Finding[];
  /** The ids of the criteria that have no answer. None is taken as good. */
  unanswered: string[];
  /** Answers that cannot be read, and what a criterion says that is only from memory and that nobody confirmed. */
  notJudged: NotJudged[];
}

const LEVELS = [
  { key: 'out', into: 'out', verdict: 'out of service' },
  { key: 'limited', into: 'limited', verdict: 'in service with limits' },
  { key: 'noted', into: 'notes', verdict: 'noted' },
] as const;

/**
 * Judge a walk-round. Of each criterion the heaviest that its answer brings about is told. What rests on memory alone
 * puts nothing out until the department has confirmed it, as in the rule book.
 * @param answers by criterion id: a value of its choice, a decimal as text in its unit, or `not fitted`; blank is none
 * @param criteria those that concern the rig, by default all that ship
 * @returns findings in the order of the criteria; answers to what is no criterion here come last, not judged
 */
export function judgeRig(
  answers: Readonly<Record<string, string>>,
  criteria: readonly Criterion[] = CRITERIA,
): RigJudgement {
  const judged: RigJudgement = { out: [], limited: [], notes: [], unanswered: [], notJudged: [] };
  for (const criterion of criteria) {
    const answer = Object.hasOwn(answers, criterion.id) ? (answers[criterion.id] ?? '').trim() : '';
    if (answer === '') judged.unanswered.push(criterion.id);
    else if (answer !== NOT_FITTED || !criterion.mayLack) judgeOne(criterion, answer, judged);
  }
  const known = new Set(criteria.map(c => c.id));
  for (const id of Object.keys(answers).filter(id => !known.has(id)))
    judged.notJudged.push({ criterion: id, text: `“${id}” is no criterion here: not judged`, isRead: false });
  return judged;
}

function judgeOne(criterion: Criterion, answer: string, judged: RigJudgement): void {
  const { id, confirmed } = criterion;
  const unread = unreadable(criterion, answer);
  if (unread !== null) {
    judged.notJudged.push({ criterion: id, text: unread, isRead: false });
    return;
  }
  const unsure: string[] = [];
  for (const { key, into, verdict } of LEVELS) {
    const rule = criterion[key];
    if (rule === null || !applies(rule, answer)) continue;
    const source = rule.source ?? criterion.source;
    const { figure, limit } = sentence(criterion, answer, rule);
    if (isConfirmed({ sources: [source], ...(confirmed === undefined ? {} : { confirmed }) })) {
      judged[into].push({
        criterion: id,
        text: `${figure}: ${verdict}${limit} (${origin(source, confirmed)})`,
      });
      break;
    }
    unsure.push(`${figure}: not judged, confirm whether it is ${verdict}${limit} (${origin(source)})`);
  }
  for (const text of unsure.slice(0, 1)) judged.notJudged.push({ criterion: id, text, isRead: true });
}

/** Why an answer cannot be judged; null where it can. */
function unreadable({ title, answer: form }: Criterion, answer: string): string | null {
  if (form.kind === 'choice')
    return form.values.some(v => v.value === answer)
      ? null
      : `${title}: “${answer}” is none of its answers: not judged`;
  const read = decimalOf(answer);
  return read !== null && read.units >= 0n ? null : `${title}: “${answer}” is not a reading: not judged`;
}

function applies(rule: Rule, answer: string): boolean {
  if ('is' in rule) return rule.is.includes(answer);
  const read = figureOf(answer);
  return 'under' in rule ? compare(read, figureOf(rule.under)) < 0 : compare(read, figureOf(rule.over)) > 0;
}

function figureOf(text: string): Decimal {
  const figure = decimalOf(text);
  if (figure === null) throw new RangeError(`“${text}” is not a figure.`);
  return figure;
}

/** What was found with its limit; a limit that is told in words stands after the verdict. */
function sentence(
  { told, answer: form }: Criterion,
  answer: string,
  rule: Rule,
): { figure: string; limit: string } {
  const inUnit = (figure: string) => {
    const unit = form.kind === 'reading' ? form.unit : '';
    return unit === '' || unit.startsWith('/') ? figure + unit : `${figure} ${unit}`;
  };
  const title = form.kind === 'choice' ? form.values.find(v => v.value === answer)?.title : undefined;
  const figure = told.replace('#', () => title ?? inUnit(answer));
  if ('is' in rule) return { figure, limit: rule.limit === undefined ? '' : ` ${rule.limit}` };
  const limit = 'under' in rule ? `under ${inUnit(rule.under)}` : `over ${inUnit(rule.over)}`;
  return { figure: `${figure}, ${limit}`, limit: '' };
}

/** `49 CFR 393.75(b), read second-hand`. */
function origin(source: Source, confirmed?: string): string {
  if (source.document === COMMON_PRACTICE) return 'common practice, no source';
  const edition = source.edition === '' ? '' : `, ${source.edition}`;
  if (source.confidence === 'read') return cited(source) + edition;
  const seen = source.confidence === 'memory' ? 'from memory' : source.confidence;
  return `${cited(source)}${edition}, ${seen}${confirmed === undefined ? '' : `, confirmed: ${confirmed}`}`;
}
