// Imports run one way: renderer -> (types of) db -> domain; electron -> db. And nothing imports itself in a circle.
// Tools that read TypeScript through its compiler's library cannot do this since version 7, which has none.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { parseAst } from 'vite';
import { ROOT } from './bootstrap/files.mjs';

/** What each folder may import: our own folders (`types` alone where it says so), and which packages. */
const MAY = {
  domain: { ours: {}, packages: ['date-fns', 'zod'] },
  db: { ours: { domain: 'all' }, packages: 'any' },
  electron: { ours: { db: 'all' }, packages: 'any' },
  renderer: { ours: { domain: 'all', db: 'types' }, packages: 'any' },
};

/**
 * Every import that runs the wrong way, and every circle of imports that run.
 * @returns how many files were read, and the sentences
 */
export function checkImports(root = ROOT) {
  const wrong = [];
  const running = new Map();
  const files = Object.keys(MAY).flatMap(folder => sources(join(root, folder)));
  for (const path of files) {
    const file = nameOf(root, path);
    const folder = file.split('/')[0];
    running.set(file, []);
    for (const { from, isType } of importsOf(path)) {
      const target = from.startsWith('.')
        ? nameOf(root, join(dirname(path), from.replace(/\?.*$/, '')))
        : null;
      const problem = target === null ? wrongPackage(folder, from) : wrongFolder(folder, target, isType);
      if (problem) wrong.push(`${file}: ${problem}`);
      if (target !== null && !existsSync(join(root, target))) wrong.push(`${file}: ${from} is not there`);
      if (target !== null && !isType) running.get(file).push(target);
    }
  }
  return { files: files.length, wrong: [...wrong, ...circles(running)] };
}

function wrongPackage(folder, from) {
  const { packages } = MAY[folder];
  const name = from.split('/', from.startsWith('@') ? 2 : 1).join('/');
  return packages === 'any' || packages.includes(name) ? null : `${folder} may not import ${from}`;
}

function wrongFolder(folder, target, isType) {
  const to = target.split('/')[0];
  if (to === folder) return null;
  const may = MAY[folder].ours[to];
  if (may === 'all' || (may === 'types' && isType)) return null;
  return may === 'types'
    ? `${folder} may import only types from ${target}`
    : `${folder} may not import ${target}`;
}

/** Imports of a file, those by `import()` and `export … from` included. */
function importsOf(path) {
  const found = [];
  const lang = path.endsWith('x') ? 'tsx' : 'ts';
  walk(parseAst(readFileSync(path, 'utf8'), { lang, sourceType: 'module' }), node => {
    const source = SOURCED.has(node.type) ? node.source?.value : undefined;
    if (typeof source === 'string')
      found.push({
        from: source,
        isType: node.type === 'TSImportType' || node.importKind === 'type' || node.exportKind === 'type',
      });
  });
  return found;
}

const SOURCED = new Set([
  'ImportDeclaration',
  'ExportNamedDeclaration',
  'ExportAllDeclaration',
  'ImportExpression',
  'TSImportType',
]);

function walk(node, visit) {
  if (Array.isArray(node)) for (const child of node) walk(child, visit);
  else if (node !== null && typeof node === 'object') {
    if (typeof node.type === 'string') visit(node);
    for (const value of Object.values(node)) walk(value, visit);
  }
}

/** Each circle once, as the way round it. */
function circles(running) {
  const found = [];
  const done = new Set();
  const follow = (file, way) => {
    const at = way.indexOf(file);
    if (at >= 0) found.push(`in a circle: ${[...way.slice(at), file].join(' -> ')}`);
    if (at >= 0 || done.has(file)) return;
    for (const next of running.get(file) ?? []) follow(next, [...way, file]);
    done.add(file);
  };
  for (const file of running.keys()) follow(file, []);
  return found;
}

function sources(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap(name => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return sources(path);
    return /\.tsx?$/.test(name) && !name.endsWith('.d.ts') ? [path] : [];
  });
}

const nameOf = (root, path) => relative(root, path).split(sep).join('/');

if (process.argv[1] === import.meta.filename) {
  const { files, wrong } = checkImports();
  for (const sentence of wrong) console.error(sentence);
  console.error(`${files} files, ${wrong.length} imports that run the wrong way or in a circle.`);
  // Reading nothing would agree with everything.
  process.exitCode = wrong.length > 0 || files === 0 ? 1 : 0;
}
