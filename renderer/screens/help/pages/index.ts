/** The whole of help: a page for every screen, for what the screens share, and for every requirement. */
import type { RuleLine } from '../../../../db/api-rules.ts';
import { FAMILIES, familyOf, SHIPPED_REQUIREMENTS } from '../../../../domain/rulebook/index.ts';
import { offeredLine } from '../../rulebook/offeredLine.ts';
import { CHECK_PAGES } from './checks.ts';
import { CREW_PAGES } from './crews.ts';
import { KIT_PAGES } from './kits.ts';
import { NOTICE_PAGES } from './notices.ts';
import type { HelpPage } from './page.ts';
import { pageIdOf, requirementPage } from './requirement.ts';
import { SCREEN_PAGES } from './screens.ts';
import { SUPPLY_PAGES } from './supply.ts';
import { WORKING_PAGES } from './working.ts';

const SHIPPED: readonly RuleLine[] = SHIPPED_REQUIREMENTS.map(offeredLine);

/**
 * Every page, in the order of the contents.
 * @param rules the book as the department has it; undefined while it is not known, and the shipped one is told
 * @param today `YYYY-MM-DD`; of several versions the one in force is told
 */
export function helpPages(rules: readonly RuleLine[] | undefined, today: string): HelpPage[] {
  const told = new Map<string, RuleLine>();
  for (const line of rules ?? SHIPPED.map(s => ({ ...s, adopted: true }))) {
    const isInForce = (line.from === null || line.from <= today) && (line.to === null || today < line.to);
    if (isInForce || !told.has(line.requirement.id)) told.set(line.requirement.id, line);
  }
  const lines = [...told.values()].sort((a, b) => familyRank(a) - familyRank(b));
  const titleOf = (id: string) => told.get(id)?.requirement.title;
  return [
    ...SCREEN_PAGES,
    ...CHECK_PAGES,
    ...KIT_PAGES,
    ...CREW_PAGES,
    ...NOTICE_PAGES,
    ...SUPPLY_PAGES,
    ...WORKING_PAGES,
    ...lines.map(l => requirementPage(l, familyOf(l.requirement.family), titleOf)),
  ];
}

const familyRank = ({ requirement }: RuleLine) => FAMILIES.findIndex(f => f.id === requirement.family);

/** The page of an address: of the rule that is open there, else of the screen; the first page where there is none. */
export function pageFor(
  from: { path: string; rule?: string },
  pages: readonly HelpPage[],
): HelpPage | undefined {
  const ofRule = from.rule === undefined ? undefined : pages.find(p => p.id === pageIdOf(from.rule ?? ''));
  return ofRule ?? pages.find(p => p.path !== undefined && isAt(p.path, from.path)) ?? pages[0];
}

/** Whether an address is of a route; a part that begins with `$` stands for any. */
function isAt(route: string, path: string): boolean {
  const [routeParts, parts] = [route, path].map(p => p.split('/').filter(Boolean));
  return (
    routeParts?.length === parts?.length &&
    (routeParts ?? []).every((part, i) => part.startsWith('$') || part === parts?.[i])
  );
}
