/** Kits: all of them by what is said against them, one with its contents, and the template of a kind. */
import { z } from 'zod';
import { describe as inWords } from '../../domain/describe.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { KitLine, KitPage, KitTemplateLine, KitTemplatePage } from '../api-kits.ts';
import { thingKey } from '../caches/apply.ts';
import { one } from '../store/statements.ts';
import { linesOn } from './carry-lines.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { type KitNow, kitsNow, kitTemplates } from './kits-known.ts';
import { CannotAnswer, question } from './types.ts';

const EFFECTS: readonly (WhenLate | null)[] = ['blocks', 'limits', 'notes', null];

export const kitsList = question({
  name: 'kits.list',
  title: 'Kits, those that do not serve first, and the templates of their kinds',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args) {
    const on = dayAsked(asking, args.on);
    const kits = kitsNow(asking, on);
    return {
      on: textOrNull(on) as string,
      // Sorting keeps the order of the numbers among those of one weight.
      rows: kits.map(lineOf).sort((a, b) => EFFECTS.indexOf(a.effect) - EFFECTS.indexOf(b.effect)),
      templates: [...kitTemplates(asking).values()]
        .map(({ key, id, what }): KitTemplateLine => {
          const lines = linesOn(asking, key, on);
          return {
            id,
            what,
            lines: lines.length,
            critical: lines.filter(l => l.critical).length,
            kits: kits.filter(k => k.template === id).length,
          };
        })
        .sort((a, b) => a.what.localeCompare(b.what, 'en-US')),
    };
  },
  example: {},
});

export const kitPage = question({
  name: 'kit.page',
  title: 'One kit: its seal, and line by line what is in it, what has expired and what is lacking',
  schema: z.strictObject({ item: z.string(), on: day.optional() }) as unknown as z.ZodType<{
    item: string;
    on?: string;
  }>,
  answer(asking, args): KitPage {
    const on = dayAsked(asking, args.on);
    const kit = kitsNow(asking, on).find(k => k.item === args.item);
    if (!kit)
      throw new CannotAnswer(
        'not found',
        `There is no kit ${args.item}.`,
        'Choose one from the list.',
        'item',
      );
    return {
      ...lineOf(kit),
      contents: kit.standing.contents.map(({ line, ...content }) => ({
        ...line,
        ...content,
        things: (kit.things.get(line.line) ?? []).map(({ item, number }) => ({ item, number })),
      })),
      extra: kit.extra.map(({ item, number, family, attributes }) => ({
        item,
        number,
        what: inWords(family, attributes),
      })),
    };
  },
  example: { item: '<id>' },
});

export const kitTemplateQuestion = question({
  name: 'kit.template',
  title: 'What a kind of kit holds, line by line, and which kits are of it',
  schema: z.strictObject({ template: z.string(), on: day.optional() }) as unknown as z.ZodType<{
    template: string;
    on?: string;
  }>,
  answer(asking, args): KitTemplatePage {
    const on = dayAsked(asking, args.on);
    const key = thingKey(asking.db, args.template);
    const told =
      key === undefined
        ? undefined
        : one<{ what: string }>(asking.db, 'SELECT what FROM kit_templates WHERE key = ?', key);
    if (key === undefined || !told)
      throw new CannotAnswer(
        'not found',
        `There is no template ${args.template}.`,
        'Choose one from the list of kits.',
        'template',
      );
    return {
      id: args.template,
      what: told.what,
      lines: linesOn(asking, key, on),
      kits: kitsNow(asking, on)
        .filter(k => k.kind?.toLowerCase() === told.what.toLowerCase())
        .map(({ item, number }) => ({ item, number })),
    };
  },
  example: { template: '<id>' },
});

const lineOf = (kit: KitNow): KitLine => {
  const { key: _key, rig: _rig, things: _things, extra: _extra, known, standing, ...line } = kit;
  const { state, since, seal, found, countedOn, seenOn } = known;
  return {
    ...line,
    state,
    since,
    seal,
    found,
    countedOn,
    seenOn,
    expires: standing.expires?.on ?? null,
    effect: standing.effect,
    reasons: standing.reasons,
  };
};
