// Architecture rules that run. Read src/ downward: a file imports from its own folder and from folders
// above it, never from below or beside. tests/architecture.test.ts runs them and plants faults.
const order = ['science', 'chart', 'rules', 'desk']
const beside = ['stores', 'slack', 'reports', 'rehearsal']
const below = (i) => [...order.slice(i + 1), ...beside, 'commands'].map((f) => `^src/${f}/`)
const roots = '^src/(main|cli|config)\\.ts$'
const pure = '^src/(science|chart|rules)/'

module.exports = {
  forbidden: [
    ...order.map((folder, i) => ({
      name: `${folder}-looks-up-only`,
      comment: 'Data goes one way; what decides must not know what sends.',
      severity: 'error',
      from: { path: `^src/${folder}/` },
      to: { path: [...below(i), roots] },
    })),
    ...beside.map((folder) => ({
      name: `${folder}-knows-no-neighbour`,
      comment: 'Stores, face, reports and rehearsal are edges: they meet only in main.ts and in commands/.',
      severity: 'error',
      from: { path: `^src/${folder}/` },
      to: { path: [...beside.filter((b) => b !== folder).map((b) => `^src/${b}/`), '^src/commands/', roots] },
    })),
    {
      name: 'pure-has-no-edges',
      comment: 'science, chart and rules never touch clock, chance, disk or network (hashing is arithmetic).',
      severity: 'error',
      from: { path: pure },
      to: { dependencyTypes: ['core'], pathNot: '^(node:)?crypto$' },
    },
    {
      name: 'pure-knows-few-libraries',
      comment: 'The decisions must be readable without a framework.',
      severity: 'error',
      from: { path: pure },
      to: { dependencyTypes: ['npm', 'npm-dev'], pathNot: 'node_modules/(zod|temporal-polyfill)/' },
    },
    {
      name: 'platform-only-in-the-face',
      comment: 'The chat platform is one edge; the rehearsal workspace plays it without its libraries.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(slack/|main\\.ts$|commands/)' },
      to: { path: 'node_modules/@slack/' },
    },
    {
      name: 'no-circles',
      comment: 'A circle is two files that are one idea.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default'],
    },
  },
}
