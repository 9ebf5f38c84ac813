// Holds the one-way flow between the rooms of the server: text → model → inspection → findings → report, editor or
// command → protocol → doors. A room may use those below it, never one above.

/** From the lowest; rooms on one floor do not know each other. */
const floors = [
  ['text', 'geometry'],
  ['model'],
  ['inspection'],
  ['findings'],
  ['report', 'workspace'],
  ['editor', 'commands'],
  ['protocol'],
];

const room = (name) => `^server/src/${name}/`;
/** The doors, and what those on Node share: the disk, the streams, other processes. */
const doors =
  '^server/src/(main|browser|cli|cli-check|cli-commands|check-thread|node-files|node-leftovers|node-list|node-load|node-messages|node-print|node-workers|node-write)\\.ts$';
/** Tests and what only they use. */
const testing = '(\\.test\\.ts|[/.]fixture\\.ts|/arbitraries\\.ts|/testing/[^/]+\\.ts)$';

const upward = floors.flatMap((names, floor) =>
  names.map((name) => ({
    name: `${name}-knows-no-higher-room`,
    severity: 'error',
    comment: `${name}/ stands below what it imports here`,
    from: { path: room(name), pathNot: testing },
    to: {
      path: [...floors.slice(floor + 1).flat(), ...names.filter((other) => other !== name)]
        .map(room)
        .concat(doors),
    },
  })),
);

module.exports = {
  forbidden: [
    ...upward,
    {
      name: 'geometry-stands-alone',
      severity: 'error',
      comment: 'numerics with no word of the trade in it: only itself and its libraries',
      from: { path: room('geometry'), pathNot: testing },
      to: { pathNot: [room('geometry'), '(^|/)node_modules/(ml-matrix|@stdlib)'] },
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
      from: { path: '^server/src/', pathNot: [room('protocol'), doors] },
      to: { path: '(^|/)node_modules/vscode-(languageserver|jsonrpc)' },
    },
    {
      name: 'client-holds-no-server-code',
      severity: 'error',
      comment: 'the client speaks to the server by messages only',
      from: { path: '^client/src/' },
      to: { path: '^(server|schemas)/' },
    },
    {
      name: 'server-knows-no-editor',
      severity: 'error',
      from: { path: '^(server|schemas)/src/' },
      to: { path: ['^client/', '(^|/)node_modules/(vscode-languageclient|@types/vscode)', '^vscode$'] },
    },
    {
      name: 'schemas-need-zod-only',
      severity: 'error',
      from: { path: '^schemas/src/', pathNot: testing },
      to: { pathNot: ['^schemas/src/', '(^|/)node_modules/zod/'] },
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
