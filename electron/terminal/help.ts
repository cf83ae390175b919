/** `--help`: the commands, every action and question with its shape, and the words of the trade they take. */
import type { Questions } from '../../db/api.ts';
import { ACTIONS_HELP, QUESTIONS_HELP, VOCABULARY } from '../../db/help.ts';

type Vocabulary = Questions['vocabulary.list']['gives'];
type Family = Vocabulary['families'][number];
type Attribute = Family['attributes'][number];

const USAGE = `Baybook from the command line. Standard output is JSON alone; a refusal is
{"error":{"code","message","todo","field"}} with exit code 1.

  npm run -s baybook -- ask <question> '<json object>'
  npm run -s baybook -- act '<json list of deeds>'
  npm run -s baybook -- import <FILE> --family <family> [--dry-run] [--yes]
  npm run -s baybook -- demo [--on DATE] [--seed N]
  npm run -s baybook -- --help

  --file PATH    the department's file; one that does not exist becomes a new department.
                 Without it: the file opened last in the data folder (BAYBOOK_DATA).
  --by NUMBER    the member who acts, by number; without it, the member called Terminal.
                 A member who signs with a PIN: put it in BAYBOOK_PIN.
  --on DATE      the day compared with, as 2026-11-25; without it, today in the department's zone.
  --dry-run      import: show what the rows become and write nothing.
  --yes          import: take every offer (new places, offered permits).

ask     prints the answer.
act     prints {"batch", "entries", "touched"}. A deed is {"action", "body", "secret"?}. All deeds of a list are
        done or none is. In a body, "&0" is what the first deed of the list brings into being, "&1" the second.
import  prints {"accepted", "refused", "rows", "offers", "questions", "written", "note", "batch"}; a row is
        {"row", "ok", "number", "becomes", "details", "meets", "adds", "conflict",
         "problems": [{"column", "wrong", "todo"}]}. Row 1 is the first under the headings; blank rows are not counted.
demo    makes the demo department and prints its summary.
`;

export function help(): string {
  return [
    USAGE,
    heading('ACTIONS'),
    ...ACTIONS_HELP.map(({ name, title, shape, example, entitlement }) =>
      entryOf(name, title, [
        ...(entitlement === undefined ? [] : [`needs: ${entitlement}`]),
        `body: ${shape}`,
        ...(example === undefined ? [] : [`example: ${JSON.stringify({ action: name, body: example })}`]),
      ]),
    ),
    heading('QUESTIONS'),
    ...QUESTIONS_HELP.map(({ name, title, shape, example }) =>
      entryOf(name, title, [
        `takes: ${shape}`,
        ...(example === undefined ? [] : [`example: ask ${name} '${JSON.stringify(example)}'`]),
      ]),
    ),
    heading('WORDS'),
    words('assignments', VOCABULARY.assignments),
    words('conditions', VOCABULARY.conditions),
    words('outcomes', VOCABULARY.outcomes),
    ...VOCABULARY.families.map(familyOf),
  ].join('\n');
}

const heading = (text: string) => `${text}\n`;

const entryOf = (name: string, title: string, lines: string[]) =>
  `${name}  ${title}\n${lines.map(line => indent(line, '    ')).join('\n')}\n`;

const indent = (text: string, by: string) =>
  text
    .split('\n')
    .map(line => by + line)
    .join('\n');

const words = (title: string, list: Vocabulary['outcomes']) => `${title}: ${list.join(', ')}\n`;

function familyOf({ id, title, attributes, activities, requirements }: Family): string {
  return [
    `family ${id}  ${title}`,
    '  attributes:',
    ...attributes.map(attribute => `    ${attributeOf(attribute)}`),
    '  activities:',
    ...activities.flatMap(activity => [
      `    ${activity.id}  ${activity.title}${activity.outside ? ' (an outside agency)' : ''}`,
      ...activity.readings.map(reading => `      reading ${attributeOf(reading)}`),
    ]),
    '  requirements:',
    ...requirements.map(({ id, title, activity }) => `    ${id}  ${title} (${activity})`),
    '',
  ].join('\n');
}

function attributeOf({ key, title, type, unit, choices }: Attribute): string {
  const kind = { text: 'text', choice: 'one of', whole: 'whole number', decimal: 'decimal as text' } as const;
  const named =
    type === 'when' ? 'date: 2024, 2024-01 or 2024-01-17' : type === 'flag' ? 'true or false' : kind[type];
  const list = choices ? ` ${choices.map(choice => JSON.stringify(choice.value)).join(', ')}` : '';
  return `${key}  ${title}${unit ? `, ${unit}` : ''} (${named}${list})`;
}
