/** Headings as words: abbreviations written out, slips of the keyboard mended, and how well they fit a field. */

/** Abbreviations and inflections to the one word the synonyms use. */
const WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  `no nr nbr num numb numbers nos=number; dia diam=diameter; len lgth lngth lth=length; svc serv srvc=service;
   insp inspected inspect inspections=inspection; hydrostatic hst=hydro; press pres pressures=pressure;
   cyl cyls cylinders=cylinder; bottles btl=bottle; yr=year; mo mth mnth=month; dt dte=date; loc locn locations=location;
   matl mat mtl=material; manuf mfgr mfr manufactuer mnfr mfger=manufacturer; mfd manufactured=manufacture; tst tests tested
   testing=test; retested retests=retest; ser=serial; expires expiry expiration expire expiring=expires; lbl=label;
   eqpt equip=equipment; app appar=apparatus; veh=vehicle; sta stn=station; asgn assgn asgnd asgd asg assign=assigned;
   vis=visual; psig=psi; mins minutes minute=min; inches inch=in; feet foot=ft; lbs pounds=lb; sect=section;
   results=result; notes=note; comments=comment; remarks remark rmks rmk=remark; couplings cplg cplgs=coupling; checked
   checks=check; specification specifications specs=spec; rqual requal requalified requals
   requalify=requalification; temp=temperature; ladders=ladder; hoses=hose; packs=pack; purchased=purchase;
   comp compt cmpt=compartment; meters metres=m; recert recertification=requalification; max=maximum; dur=duration;
   const constr=construction; orig=original; curr cur=current; nom=nominal; prev prior=previous; hydrotest=hydro;
   freq=frequency; dept=department; sn=serial; pf=result; examination=exam; expansion=expansion; id's=id`
    .split(';')
    .flatMap(entry => {
      const [from = '', to = ''] = entry.split('=');
      return from
        .trim()
        .split(/\s+/)
        .map(word => [word, to.trim()] as const);
    }),
);

/** Words that change nothing in any heading. */
const IDLE = new Set([
  'of',
  'the',
  'a',
  'an',
  'for',
  'and',
  'is',
  'was',
  'fire',
  'fd',
  'current',
  'department',
]);
const DATE_IDLE = new Set(['date', 'on', 'day', 'last', 'most', 'recent', 'latest', 'lst', 'when', 'month']);
/** `Hydro 2`, `2nd hydro`: one of several dates of the same kind. */
const ORDINAL = /^\d$|^[1-9](st|nd|rd|th)$/;
const DATE_FORM =
  /[([]?\b(?:mm|m)[-/. ](?:(?:dd|d)[-/. ])?(?:yyyy|yy)\b[)\]]?|[([]?\byyyy[-/](?:mm)(?:[-/]dd)?\b[)\]]?/gi;

/** Words that headings are run together from: `HOSENO`, `LASTTESTDATE`. */
const RUN_TOGETHER = new Set(
  `hose ladder bottle cylinder cyl pack tank scba number no num id tag asset item serial date dt last test tested service
   svc in made mfg mfr manufacture manufacturer manufactured size dia diameter length len type use location loc unit
   station result results pass fail psi pressure press hydro heat label exp expires inspection insp visual flow next due
   of by year yr model make remarks notes spec dot rated rating min assigned to placed put status rin truck engine
   apparatus rig built barcode code name material condition comments working duration maker brand new`.split(
    /\s+/,
  ),
);

/** A word that is known, or is run together from known ones, as those. */
function parted(word: string): string[] {
  if (word.length < 5 || RUN_TOGETHER.has(word) || WORDS[word] !== undefined) return [word];
  const best: (string[] | null)[] = [[]];
  for (let end = 1; end <= word.length; end++) {
    let found: string[] | null = null;
    for (let start = 0; start < end; start++) {
      const before = best[start];
      const part = word.slice(start, end);
      if (!before || !RUN_TOGETHER.has(part)) continue;
      if (found === null || before.length + 1 < found.length) found = [...before, part];
    }
    best[end] = found;
  }
  return best[word.length] ?? [word];
}

const cache = new Map<string, string[]>();

/** The words of a heading, in lower case, abbreviations written out. */
export function headingWords(heading: string): string[] {
  const known = cache.get(heading);
  if (known) return known;
  const words = heading
    .replace(DATE_FORM, ' ')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/['’`]/g, '')
    .replace(/\bs\s*[/.]\s*n\b\.?/g, ' serial ')
    .replace(/\bp\s*[/.]\s*f\b\.?/g, ' result ')
    .replace(/\bpass\s*\/?\s*fail\b/g, ' result ')
    .replace(
      /\b([a-z])\.\s?([a-z])\.(?:\s?([a-z])\.)?/g,
      (_, a: string, b: string, c?: string) => `${a}${b}${c ?? ''} `,
    )
    .replace(/[#№]/g, ' number ')
    .replace(/%/g, ' percent ')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .split(' ')
    .filter(word => word !== '')
    .flatMap(parted)
    .flatMap(word => (WORDS[word] ?? word).split(' '));
  const plain = words.filter((word, i) => word !== words[i - 1]);
  if (cache.size < 5000) cache.set(heading, plain);
  return plain;
}

/** One way a field may be headed, and how sure it is (100: it can mean nothing else). */
export interface Synonym {
  words: readonly string[];
  /** The words that count, and both without spaces. */
  core: readonly string[];
  joined: string;
  joinedCore: string;
  weight: number;
}

/** What the score may leave out of a heading: the family's own words, the unit, the words of dates. */
export interface Droppable {
  family: ReadonlySet<string>;
  units: ReadonlySet<string>;
  isDate: boolean;
}

/** Synonyms from text: `last test, test~85` is two, the second less sure. */
export function synonyms(text: string, drop: Droppable): Synonym[] {
  return text
    .split(',')
    .map(entry => entry.trim())
    .filter(entry => entry !== '')
    .map(entry => {
      const [phrase = '', weight] = entry.split('~');
      const words = headingWords(phrase);
      const core = without(words, drop);
      return {
        words,
        core,
        joined: words.join(''),
        joinedCore: core.join(''),
        weight: Number(weight ?? 100),
      };
    });
}

/** A heading with what may be left out of it left out, in two ways. */
interface Heading {
  words: readonly string[];
  withUnits: readonly string[];
  noUnits: readonly string[];
  joined: string;
  joinedCore: string;
}

/**
 * How well a heading says a field: 100 for a synonym word for word, a little less where only idle words differ,
 * down to half where the synonym is a part of it; 0 where it does not hold one.
 */
export function headingScore(words: readonly string[], says: readonly Synonym[], drop: Droppable): number {
  if (words.length === 0) return 0;
  const withUnits = without(words, drop);
  const noUnits = withoutUnits(withUnits, drop);
  const heading = { words, withUnits, noUnits, joined: words.join(''), joinedCore: withUnits.join('') };
  let best = 0;
  for (const synonym of says) {
    if (synonym.weight <= best) continue;
    const fit = fitOf(heading, synonym) * (synonym.weight / 100);
    if (fit > best) best = fit;
  }
  return best;
}

function fitOf({ words, withUnits, noUnits, joined, joinedCore }: Heading, synonym: Synonym): number {
  const { core } = synonym;
  if (joined === synonym.joined && same(words, synonym.words)) return 100;
  if (same(withUnits, core)) return 97;
  if (same(noUnits, core)) return 96;
  if (joinedCore === synonym.joinedCore || joined === synonym.joined) return 95;
  if (sameSet(withUnits, core) || sameSet(noUnits, core)) return 94;
  if (sameWithSlip(noUnits, core)) return 90;
  if (!core.every(word => withUnits.includes(word))) return 0;
  return (90 * 2 * core.length) / (core.length + withUnits.length);
}

/** The words that count: idle ones left away, of a date those of dates, of any the family's own. */
function without(words: readonly string[], drop: Droppable): readonly string[] {
  let kept = words.filter(w => !IDLE.has(w) && !(drop.isDate && (DATE_IDLE.has(w) || ORDINAL.test(w))));
  if (kept.length === 0) kept = words.filter(w => !IDLE.has(w));
  const noFamily = kept.filter(w => !drop.family.has(w));
  return noFamily.length > 0 ? noFamily : kept;
}

function withoutUnits(words: readonly string[], drop: Droppable): readonly string[] {
  const kept = words.filter(w => !drop.units.has(w));
  return kept.length > 0 ? kept : words;
}

function same(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((word, i) => word === b[i]);
}

function sameSet(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every(word => b.includes(word));
}

/** One slip in one word of five letters or more: `Lenght`, `Diamater`. */
function sameWithSlip(a: readonly string[], b: readonly string[]): boolean {
  return (
    a.length === b.length &&
    a.every(
      (word, i) =>
        word === b[i] || (word.length >= 5 && (b[i] ?? '').length >= 5 && oneSlip(word, b[i] ?? '')),
    )
  );
}

function oneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  if (a.slice(i + 1) === b.slice(i + 1) || a.slice(i + 1) === b.slice(i) || a.slice(i) === b.slice(i + 1))
    return true;
  return a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2);
}
