/** Imports run one way: renderer -> (types of) db -> domain; electron -> db. */
module.exports = {
  forbidden: [
    {
      name: 'domain-imports-nothing-of-ours',
      severity: 'error',
      from: { path: '^domain/' },
      to: { pathNot: '^domain/|^node_modules/(date-fns|zod)/' },
    },
    {
      name: 'db-imports-only-domain',
      severity: 'error',
      from: { path: '^db/' },
      to: { path: '^(electron|renderer|tests|scripts)/' },
    },
    {
      name: 'renderer-takes-only-types-from-db',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^db/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'renderer-knows-no-host',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^(electron|tests|scripts)/' },
    },
    {
      name: 'hosts-know-no-rules-and-no-screens',
      severity: 'error',
      from: { path: '^electron/' },
      to: { path: '^(domain|renderer|tests|scripts)/' },
    },
    {
      name: 'no-cycles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'] },
  },
};
