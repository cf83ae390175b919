/** Help: a page for whatever one can be at, none that names a key that is not there, and a search that finds. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fireEvent, screen } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import { SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { createScreens } from '../../renderer/app/router.tsx';
import { findPages } from '../../renderer/screens/help/findPages.ts';
import { HelpBook } from '../../renderer/screens/help/HelpBook.tsx';
import { helpPages, pageFor } from '../../renderer/screens/help/pages/index.ts';
import { textOf } from '../../renderer/screens/help/pages/page.ts';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';
import { draw, fakeHost, TODAY } from './browser.tsx';

const PAGES = helpPages(undefined, TODAY);
const titlesOf = (typed: string) => findPages(PAGES, typed).map(f => f.page.title);

/** Where the keys that a page names are answered to. */
const ANSWERED_IN: Readonly<Record<string, readonly string[]>> = {
  due: ['screens/coming-due'],
  checks: ['screens/checks', 'parts/paper'],
  check: ['screens/checks'],
  walk: ['screens/rigs'],
  changeover: ['screens/changeover', 'parts/paper'],
  incidents: ['screens/incidents'],
  incident: ['screens/incidents'],
  carry: ['screens/carry'],
  tagouts: ['screens/tagouts', 'parts/paper'],
  kits: ['screens/kits'],
  kit: ['screens/kits'],
  'kit-template': ['screens/kits'],
  notices: ['screens/notices'],
  notice: ['screens/notices'],
  supply: ['screens/supply', 'parts/paper'],
  fills: ['screens/fills', 'parts/paper'],
  thing: ['screens/thing', 'parts/deeds'],
  import: ['screens/import'],
  rules: ['screens/rulebook', 'parts/paper'],
  keys: ['shell'],
  printing: ['parts/paper'],
  photos: ['screens/thing', 'screens/tagouts'],
  readiness: ['screens/readiness', 'parts/paper'],
  rig: ['screens/rigs', 'parts/deeds'],
};
/** Told by the contract of those screens before their folders held them. */
const BY_CONTRACT: Readonly<Record<string, readonly string[]>> = { readiness: ['n', 'p'], rig: ['m', 'x'] };

function keysAnsweredIn(folders: readonly string[]): Set<string> {
  const sources = folders.flatMap(folder => {
    const path = join('renderer', folder);
    return readdirSync(path, { recursive: true, encoding: 'utf8' })
      .filter(name => /\.tsx?$/.test(name))
      .map(name => readFileSync(join(path, name), 'utf8'));
  });
  return new Set(sources.flatMap(text => [...text.matchAll(/\bkey: '([^']+)'/g)].map(m => m[1] ?? '')));
}

describe('help has a page', () => {
  it('for every route of the screens', () => {
    const routes = Object.keys(createScreens().routesByPath);
    expect(routes.length).toBeGreaterThan(8);
    const paths = PAGES.map(p => p.path);
    for (const route of routes) expect(paths, route).toContain(route);
    for (const path of paths) if (path !== undefined) expect(routes, path).toContain(path);
  });

  it.each(SHIPPED_REQUIREMENTS.map(r => [r.id, r] as const))(
    'for %s, with its sources and cautions',
    (id, r) => {
      const page = pageFor({ path: '/rules', rule: id }, PAGES);
      const said = page?.sections.flatMap(textOf).join(' ') ?? '';
      for (const { document } of r.sources) expect(said).toContain(document);
      for (const caution of r.cautions) expect(said).toContain(caution);
      expect(said).toContain(r.who);
      // What was not read in the document itself says so.
      expect(/check it against the document in hand/.test(said)).toBe(
        r.sources.some(s => s.confidence !== 'read'),
      );
    },
  );

  it('of its own by each id and title', () => {
    expect(new Set(PAGES.map(p => p.id)).size).toBe(PAGES.length);
    expect(new Set(PAGES.map(p => p.title)).size).toBe(PAGES.length);
  });

  it('that says the requirement as the department has it, and that one is only offered', () => {
    const [hose] = SHIPPED_REQUIREMENTS;
    if (!hose) throw new Error('The shipped book is empty.');
    const version = (warnDays: number, from: string | null, to: string | null, adopted = true) => ({
      ...offeredLine({ ...hose, warnDays }),
      from,
      to,
      adopted,
    });
    const said = (rules: Parameters<typeof helpPages>[0]) =>
      pageFor({ path: '/rules', rule: hose.id }, helpPages(rules, TODAY))?.sections.flatMap(textOf).join(' ');
    expect(said([version(30, null, '2026-06-01'), version(90, '2026-06-01', null)])).toContain(
      'from 90 days before',
    );
    expect(said([version(60, null, null, false)])).toContain('has not adopted it');
    expect(said([version(60, null, null)])).not.toContain('has not adopted it');
  });
});

describe('the pages name no key', () => {
  it.each(PAGES.filter(p => p.sections.some(s => s.keys)).map(p => [p.title, p] as const))(
    'that is not answered to: %s',
    (_title, page) => {
      const named = page.sections.flatMap(s => s.keys ?? []).map(k => k.key);
      const answered = new Set([
        ...keysAnsweredIn(ANSWERED_IN[page.id] ?? []),
        ...(BY_CONTRACT[page.id] ?? []),
      ]);
      expect(named.filter(key => !answered.has(key))).toEqual([]);
    },
  );
});

describe('where help opens', () => {
  const at = (path: string, rule?: string) =>
    pageFor(rule === undefined ? { path } : { path, rule }, PAGES)?.id;

  it('is the page of the screen, or of the rule that is open there', () => {
    expect(at('/rules')).toBe('rules');
    expect(at('/rigs')).toBe('rigs');
    expect(at('/rigs/k3f9a-7')).toBe('rig');
    expect(at('/thing/k3f9a-2')).toBe('thing');
    expect(at('/due', 'hose.service-test')).toBe('rule hose.service-test');
    expect(at('/due', 'ours.weekly')).toBe('due');
  });

  it('is the first page where no screen is known', () => expect(at('/nowhere/at/all')).toBe(PAGES[0]?.id));
});

describe('searching help', () => {
  it('finds a title before a heading, and a heading before text', () => {
    expect(titlesOf('rule book')[0]).toBe('Rule book');
    expect(titlesOf('anchor')[0]).toBe('How Baybook keeps its evidence');
    expect(titlesOf('requalif')[0]).toBe('Cylinder: requalification');
    expect(titlesOf('belief')[0]).toBe('Words we use');
  });

  it('wants every word, and says where it was found', () => {
    expect(titlesOf('void xyzzy')).toEqual([]);
    expect(titlesOf('   ')).toHaveLength(PAGES.length);
    const [found] = findPages(PAGES, 'json lines');
    expect(found?.page.id).toBe('department');
    expect(found?.excerpt).toContain('JSON Lines');
    expect(found?.page.sections[found.section ?? -1]?.heading).toBe('Export');
  });
});

describe('the book of help', () => {
  it('opens where one is, is searched by typing, turned by arrows, and closed by Esc', async () => {
    fakeHost({});
    const onClose = vi.fn();
    draw(<HelpBook from={{ path: '/import' }} onClose={onClose} />);
    const box = await screen.findByRole('combobox', { name: 'Search help' });
    const page = () => screen.getByRole('article').getAttribute('aria-label');
    expect(page()).toBe('Import');
    fireEvent.keyDown(box, { key: 'ArrowDown' });
    expect(page()).toBe('Rule book');
    fireEvent.change(box, { target: { value: 'scba flow test' } });
    expect(page()).toBe('SCBA pack: flow test');
    fireEvent.keyDown(box, { key: 'Enter' });
    expect(document.activeElement).toBe(screen.getByRole('article'));
    fireEvent.change(box, { target: { value: 'qqqq' } });
    expect(screen.queryByRole('article')).toBeNull();
    expect(screen.getAllByText('Nothing fits these words.').length).toBeGreaterThan(0);
    fireEvent.keyDown(box, { key: 'Escape' });
    expect(onClose).toHaveBeenCalled();
  });
});
