// Holds the one-way flow between the rooms of the server. A room is a folder of server/src/; it may use the rooms that stand
// before it here, never one after it, and rooms in one line do not know each other.

const rooms = [
  ['memory'],
  ['geometry', 'text'],
  ['text/yaml'],
  ['model'],
  ['model/read', 'model/resolve'],
  ['inspection/alignment', 'inspection/timeline'],
  ['inspection/frame'],
  ['inspection/shape'],
  ['inspection/job'],
  ['inspection/advice'],
  ['inspection/gate'],
  ['inspection/pulls'],
  ['inspection/pulls/job-plan'],
  ['inspection/cars'],
  ['wording'],
  ['wording/job-plan'],
  ['findings/rule'],
  // one family of rules does not know another
  [
    'findings/base',
    'findings/body',
    'findings/chassis',
    'findings/instrument',
    'findings/internal',
    'findings/name',
    'findings/procedure',
    'findings/reading',
    'findings/settings',
    'findings/sign-off',
    'findings/text',
  ],
  ['findings'],
  ['workspace', 'report'],
  ['report/drawing'],
  ['report/history'],
  ['report/record', 'diff'],
  ['editor'],
  ['tables'],
  ['tables/sheet', 'tables/xlsx', 'tables/editing'],
  ['editor/navigate', 'editor/format', 'editor/hover'],
  ['editor/actions'],
  ['editor/complete', 'editor/show', 'commands/formats'],
  ['editor/typing'],
  ['commands'],
  ['protocol'],
  ['protocol/features'],
  ['node'],
  ['doors'],
];

/** The files of a room itself, without the rooms inside it. */
const room = (name) => `^server/src/${name}/[^/]+$`;
/** Tests and what only they use. */
const testing = '(\\.test\\.ts|[/.]fixture\\.ts|/arbitraries\\.ts|/testing/[^/]+\\.ts)$';
/** The doors, and what those on Node share: the disk, the streams, other processes. */
const doors = '^server/src/(doors|node)/';

/** What a room may not import: everything after it, and what stands in its line. */
const upward = rooms.slice(0, -1).flatMap((names, floor) =>
  names.map((name) => ({
    name: `${name}-knows-no-higher-room`,
    severity: 'error',
    comment: `${name}/ stands below what it imports here`,
    from: { path: room(name), pathNot: testing },
    to: {
      path: [...rooms.slice(floor + 1).flat(), ...names.filter((other) => other !== name)].map(room),
      pathNot: testing,
    },
  })),
);

module.exports = {
  forbidden: [
    ...upward,
    {
      name: 'every-file-is-in-a-room',
      severity: 'error',
      comment: 'a new folder needs its line in the list of rooms',
      from: { path: '^server/src/', pathNot: [testing, ...rooms.flat().map(room)] },
      to: {},
    },
    {
      name: 'geometry-stands-alone',
      severity: 'error',
      comment: 'numerics with no word of the trade in it: only itself, what it remembers and its libraries',
      from: { path: room('geometry'), pathNot: testing },
      to: { pathNot: [room('geometry'), room('memory'), '(^|/)node_modules/(ml-matrix|@stdlib)'] },
    },
    {
      name: 'no-node-below-the-doors',
      severity: 'error',
      comment: 'the same code runs in a web worker',
      from: { path: '^(server|schemas)/src/', pathNot: [doors, testing] },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'protocol-alone-knows-the-protocol',
      severity: 'error',
      comment: 'domain code answers in its own words',
      from: { path: '^server/src/', pathNot: ['^server/src/protocol/', doors] },
      to: { path: '(^|/)node_modules/vscode-(languageserver|jsonrpc)' },
    },
    {
      name: 'client-holds-no-server-code',
      severity: 'error',
      comment: 'the client speaks to the server by messages only, whose types are written once',
      from: { path: '^client/src/' },
      to: { path: '^(server|schemas)/', pathNot: '^schemas/src/wire\\.ts$' },
    },
    {
      name: 'wire-is-types-alone',
      severity: 'error',
      comment: 'what both sides import must not become code of one in the other',
      from: { path: '^(client|server)/src/' },
      to: { path: '^schemas/src/wire\\.ts$', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'wire-stands-alone',
      severity: 'error',
      from: { path: '^schemas/src/wire\\.ts$' },
      to: { path: '.' },
    },
    {
      name: 'server-knows-no-editor',
      severity: 'error',
      comment: 'its tests may do with an answer what the client does',
      from: { path: '^(server|schemas)/src/', pathNot: testing },
      to: { path: ['^client/', '(^|/)node_modules/(vscode-languageclient|@types/vscode)', '^vscode$'] },
    },
    {
      name: 'schemas-need-zod-only',
      severity: 'error',
      from: { path: '^schemas/src/', pathNot: testing },
      to: { pathNot: ['^schemas/src/', '(^|/)node_modules/zod/'] },
    },
    {
      name: 'spreadsheets-by-their-door',
      severity: 'error',
      comment: 'what reads and writes them is loaded on demand: no other bundle holds it',
      from: {
        path: '^server/src/',
        pathNot: ['^server/src/tables/xlsx/', '^server/src/doors/spreadsheet\\.ts$', testing],
      },
      to: {
        path: ['^server/src/tables/xlsx/', '(^|/)node_modules/(fflate|read-excel-file|write-excel-file)'],
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'no-tests-in-the-product',
      severity: 'error',
      from: { path: '/src/', pathNot: testing },
      to: { path: testing },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'nothing-unresolved',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^vscode$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['types', 'import', 'node', 'browser', 'default'],
    },
  },
};
