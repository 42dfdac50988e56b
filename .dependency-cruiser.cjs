/** The arrows of the house: imports point down the flow only, and a room is entered through its index.ts. */
const order = [
  'flow',
  'words',
  'color',
  'photo',
  'vision',
  'identify',
  'verify',
  'record',
  'inspect',
  'app',
  'command',
];
const allowed = {
  flow: [],
  words: ['flow'],
  color: ['flow'],
  photo: ['flow', 'color'],
  vision: ['flow', 'color'],
  identify: ['flow', 'color'],
  verify: ['flow', 'identify'],
  record: ['flow', 'words', 'identify', 'verify'],
  inspect: ['flow', 'photo', 'color', 'vision', 'identify'],
  app: order.filter((r) => r !== 'command'),
  command: order.filter((r) => r !== 'app'),
};
module.exports = {
  forbidden: [
    { name: 'no-cycle', severity: 'error', from: {}, to: { circular: true, dependencyTypesNot: ['type-only'] } },
    ...order.map((room) => ({
      name: `arrow-${room}`,
      severity: 'error',
      comment: `${room} may import only: ${allowed[room].join(', ') || 'nothing'}`,
      from: { path: `^src/${room}/` },
      to: { path: '^src/', pathNot: [room, ...allowed[room]].map((r) => `^src/${r}/`) },
    })),
    {
      name: 'front-door',
      severity: 'error',
      comment: 'another room is entered through its index.ts, worker.ts or a *.browser.ts / *.node.ts entry',
      from: { path: '^src/([^/]+)/' },
      to: {
        path: '^src/([^/]+)/',
        pathNot: [
          '^src/$1/',
          '^src/[^/]+/index\\.ts$',
          '^src/.+\\.browser\\.ts$',
          '^src/.+\\.node\\.ts$',
          '^src/inspect/worker\\.ts$',
        ],
      },
    },
    {
      name: 'one-language',
      severity: 'error',
      comment:
        'screens speak through app/text, which knows the chosen language; say of the words room would be English',
      from: { path: '^src/app/', pathNot: '^src/app/(text/|services/language\\.ts|parts/language-key\\.tsx)' },
      to: { path: '^src/words/' },
    },
    {
      name: 'pure-cores',
      severity: 'error',
      from: { path: '^src/(flow|words|color|identify|verify)/' },
      to: { dependencyTypes: ['npm', 'core'], pathNot: 'node_modules/(culori|valibot)/' },
    },
    {
      name: 'no-unlisted',
      severity: 'error',
      from: { path: '^src' },
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  },
};
