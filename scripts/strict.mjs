// drizzle-kit does not write the word STRICT; every table of ours has it. Run after `drizzle-kit generate`,
// before the migration lands: it adds the word where a CREATE TABLE lacks it and touches nothing else.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const folder = new URL('../migrations/', import.meta.url);
for (const name of readdirSync(folder).filter(n => n.endsWith('.sql'))) {
  const file = new URL(name, folder);
  const before = readFileSync(file, 'utf8');
  const after = before.replace(/(CREATE TABLE [^;]*?\n\))(;)/g, '$1 STRICT$2');
  if (after !== before) writeFileSync(file, after);
}
