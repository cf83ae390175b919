/** `--help`: the commands, every action and question with its shape, and the words of the trade they take. */
import { ACTIONS_HELP, QUESTIONS_HELP, VOCABULARY_HELP } from '../../db/help.ts';

type Family = (typeof VOCABULARY_HELP)['families'][number];
type Attribute = Family['attributes'][number];

const USAGE = `Baybook from the command line. Standard output is JSON alone; a refusal is
{"error":{"code","message","todo","field"}} with exit code 1.

  npm run -s baybook -- ask <question> '<json object>'
  npm run -s baybook -- act '<json list of deeds>' [--photo FILE]…
  npm run -s baybook -- import <FILE> --family <family> [--dry-run] [--yes] [--day-first]
  npm run -s baybook -- import <FILE> --family carry --unit "Engine 31" [--dry-run]
  npm run -s baybook -- paper '<json object>' --to <FILE>
  npm run -s baybook -- demo [--on DATE] [--seed N]
  npm run -s baybook -- backup
  npm run -s baybook -- backups
  npm run -s baybook -- restore <BACKUP> [--dry-run]
  npm run -s baybook -- --help

  --file PATH    the department's file; one that does not exist becomes a new department.
                 Without it: the file opened last in the data folder (BAYBOOK_DATA).
  --by NUMBER    the member who acts, by number; without it, the member called Terminal.
                 A member who signs with a PIN: put it in BAYBOOK_PIN.
  --on DATE      the day compared with, as 2026-11-25; without it, today in the department's zone.
  --dry-run      import: show what the rows become and write nothing.
                 restore: show what the backup holds and what it is to the file; restore nothing.
  --to PATH      paper: the file to write.
  --yes          import: take every offer (new places, offered permits).
  --day-first, --month-first
                 import: answers a date column whose order only a person can tell.

ask     prints the answer.
act     prints {"batch", "entries", "touched"}. A deed is {"action", "body", "secret"?}. All deeds of a list are
        done or none is. In a body, "&0" is what the first deed of the list brings into being, "&1" the second;
        without "on" it was done today. "photos": ["#0"] names the first --photo, "#1" the second; a photo that is in
        the file already may be named by its SHA-256.
import  prints {"accepted", "refused", "rows", "offers", "questions", "written", "note", "batch"}; a row is
        {"row", "ok", "number", "becomes", "details", "meets", "adds", "conflict",
         "problems": [{"column", "wrong", "todo"}]}. Row 1 is the first under the headings; blank rows are not counted.
paper   writes the PDF and prints {"file", "pages", "bytes"}; what it takes is what the question paper.make takes.
        A file that is there already is not written over.
demo    makes the demo department and prints its summary.
backup  copies the file, as it stands between two acts, into the folder "backups" beside it, checks the copy and puts its
        anchor (entries; device, number and hash of each newest entry) beside it as text. Never over another.
backups prints {"folder", "files": [{"name", "bytes", "changedAt"}]}, the latest first.
restore checks a backup (a path, or a name in that folder) and copies it as a new file beside the others, never over one;
        it goes on as a device of its own. Prints what it holds, with "relation" to the file: same, older, newer,
        diverged or unrelated, and how many entries only the one or the other has. A damaged one is refused.
`;

export function help(): string {
  const { families, outcomes, assignments, conditions, howKnown, positions, dates } = VOCABULARY_HELP;
  return [
    USAGE,
    'ACTIONS\n',
    ...ACTIONS_HELP.map(({ name, title, shape, example, entitlement }) =>
      entryOf(name, title, [
        ...(entitlement === undefined ? [] : [`needs: ${entitlement}`]),
        `body: ${shape}`,
        `example: ${JSON.stringify({ action: name, body: example })}`,
      ]),
    ),
    'QUESTIONS\n',
    ...QUESTIONS_HELP.map(({ name, title, shape, example }) =>
      entryOf(name, title, [`takes: ${shape}`, `example: ask ${name} '${JSON.stringify(example)}'`]),
    ),
    'WORDS\n',
    `dates: ${dates}`,
    `outcomes: ${outcomes.join(', ')}`,
    `assignments: ${assignments.join(', ')}`,
    `conditions: ${conditions.join(', ')}`,
    `how a place is known: ${howKnown.join(', ')}`,
    `positions: ${positions.join(', ')}\n`,
    ...families.map(familyOf),
  ].join('\n');
}

const entryOf = (name: string, title: string, lines: string[]) =>
  [`${name}  ${title}`, ...lines.map(line => `    ${line}`), ''].join('\n');

function familyOf(f: Family): string {
  return [
    `family ${f.family}  ${f.title}`,
    '  attributes:',
    ...f.attributes.map(attribute => `    ${attributeOf(attribute)}`),
    '  activities:',
    ...f.activities.map(
      ({ activity, readings }) =>
        `    ${activity}${readings.length > 0 ? `  readings: ${readings.join(', ')}` : ''}`,
    ),
    '  requirements:',
    ...f.requirements.map(r => `    ${r.requirement}  ${r.title} (${r.activity})`),
    ...(f.repairs.length > 0 ? [`  repairs: ${f.repairs.join(', ')}`] : []),
    ...(f.happenings.length > 0 ? [`  happenings: ${f.happenings.join(', ')}`] : []),
    '',
  ].join('\n');
}

const KINDS = {
  text: 'text',
  choice: 'one of',
  whole: 'whole number',
  decimal: 'decimal as text',
  when: 'date',
  flag: 'true or false',
} as const;

function attributeOf({ key, title, type, unit, choices, note }: Attribute): string {
  const list = choices === undefined ? '' : ` ${choices.map(choice => JSON.stringify(choice)).join(', ')}`;
  return `${key}  ${title}${unit ? `, ${unit}` : ''} (${KINDS[type]}${list})${note ? `. ${note}` : ''}`;
}
