/** Which remembered answers an act has made stale, by the names of what it touched. */
import type { QuestionName } from '../../db/api.ts';

/** Carry lists and what was found against them. */
const CHECKS: readonly QuestionName[] = [
  'carry.holders',
  'carry.page',
  'checkoff.page',
  'checkoffs.list',
  'chains.list',
  'swaps.list',
  'incidents.list',
  'incident.page',
  'defects.list',
  'rig.changeover',
];

/** Notices are held against things as they are now. */
const NOTICES: readonly QuestionName[] = ['notices.list', 'notice.page'];
/** Kits are told from their things, their counts and their templates. */
const KITS: readonly QuestionName[] = ['kits.list', 'kit.page', 'kit.template'];
/** Counted stock, told from its own facts. */
const SUPPLY: readonly QuestionName[] = ['supply.list', 'supply.reorder', 'supply.history'];

/** May a bottle be filled, and what was filled: held against the things as they are now. */
const FILLS: readonly QuestionName[] = ['fill.check', 'fills.list'];

/** How units and rigs stand: told from things, their dates, their places and their check-offs. */
const STANDING: readonly QuestionName[] = [
  'readiness.now',
  'rigs.list',
  'rig.page',
  'rig.changeover',
  'changeovers.list',
  'item.spares',
  'supply.shelf',
  ...KITS,
  ...FILLS,
  ...CHECKS,
];

/** Questions whose answer may change when a name is touched. `item:<id>` is looked at on its own below. */
const STALE: Readonly<Record<string, readonly QuestionName[]>> = {
  due: [
    'rulebook.preview',
    'item.meters',
    'due.list',
    'due.counts',
    'due.groups',
    'due.explain',
    'item.page',
    'item.find',
    ...STANDING,
  ],
  items: [
    'makes.list',
    'item.meters',
    'due.list',
    'due.counts',
    'due.groups',
    'item.find',
    'item.page',
    'search.all',
    'department.summary',
    'places.list',
    'import.preview',
    ...NOTICES,
    ...STANDING,
  ],
  places: [
    'places.list',
    'department.summary',
    'search.all',
    'due.list',
    'due.counts',
    'due.groups',
    'item.page',
    'item.history',
    'notes.list',
    ...NOTICES,
    ...SUPPLY,
    ...STANDING,
  ],
  notes: ['notes.list', 'readiness.now'],
  notices: NOTICES,
  kits: [...KITS, 'readiness.now'],
  checkoffs: ['readiness.now', 'rig.page', ...CHECKS],
  supply: SUPPLY,
  fills: FILLS,
  members: [
    'members.list',
    'search.all',
    'notes.list',
    'item.history',
    'supply.history',
    'fills.list',
    'changeovers.list',
    'incident.page',
    ...NOTICES,
  ],
  rulebook: [
    'rulebook.list',
    'rulebook.trial',
    'rulebook.history',
    'rulebook.preview',
    'rulebook.editions',
    'makes.list',
    'item.meters',
    'due.list',
    'due.counts',
    'due.groups',
    'due.explain',
    'item.page',
    'import.preview',
    ...STANDING,
  ],
};

/** Answers that count or name the entries themselves. */
const OF_EVERY_DEED: ReadonlySet<string> = new Set<QuestionName>([
  'changes.since',
  'department.summary',
  'ledger.heads',
]);

/** Whether an answer to `question` with `args` is stale after `touched`. A name that is not known spoils all. */
export function isStale(question: string, args: unknown, touched: readonly string[]): boolean {
  // Whatever was done is one more entry, and one of the deeds since the last look.
  if (OF_EVERY_DEED.has(question) && touched.length > 0) return true;
  return touched.some(name => {
    if (name.startsWith('item:')) return concernsItem(question, args, name.slice('item:'.length));
    const questions = STALE[name];
    return questions === undefined || (questions as readonly string[]).includes(question);
  });
}

function concernsItem(question: string, args: unknown, item: string): boolean {
  if (!['item.page', 'item.history', 'due.explain'].includes(question)) return false;
  // A question that names the thing by its number may mean any thing.
  return typeof args !== 'object' || args === null || !('item' in args) || args.item === item;
}
