/** The fence: which room may know which. Each rule says why. */
const room = (name) => `^libs/${name}/`;
const above = {
  platform: 'access|crew|repair|roster|planning|engine|hull',
  access: 'crew|repair|roster|planning|engine|hull',
  crew: 'repair|roster|planning|engine|hull',
  repair: 'roster|planning|engine',
  roster: 'planning|engine|hull',
};
const why = {
  platform: 'platform serves every feature and knows none',
  access: 'who may do what is decided before any feature is known',
  crew: 'people are described without the vessel, the roster or the plan',
  repair:
    'the vessel and its work are described without the roster or the plan; what a seat asks for is listed in crew',
  roster: 'a roster is made from records; planning sits above it and calls down',
};

module.exports = {
  forbidden: [
    {
      name: 'no-circles',
      comment: 'a circle means two rooms are one',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'pure-rooms',
      comment:
        'engine and hull import nothing but their own files: no framework, no Node module, no other room',
      severity: 'error',
      from: { path: '^libs/(engine|hull)/src/(?!.*\\.(spec|fixture)\\.ts$)' },
      to: { pathNot: '^libs/$1/src/' },
    },
    ...Object.entries(above).map(([name, rooms]) => ({
      name: `down-only-${name}`,
      comment: why[name],
      severity: 'error',
      from: { path: room(name), pathNot: '\\.spec\\.ts$' },
      to: { path: `^libs/(${rooms})/|^apps/` },
    })),
    {
      name: 'planning-is-the-top-room',
      comment: 'apps wire rooms together; no room reaches into an app',
      severity: 'error',
      from: { path: '^libs/', pathNot: '\\.spec\\.ts$' },
      to: { path: '^apps/' },
    },
    {
      name: 'enter-by-the-index',
      comment: "another room's inside is its own business",
      severity: 'error',
      from: { path: '^(libs|apps)/([^/]+)/', pathNot: '\\.(spec|fixture)\\.ts$' },
      to: { path: '^libs/[^/]+/(src|dist)/(?!index\\.)', pathNot: '^$1/$2/' },
    },
    {
      name: 'no-own-index',
      comment: "inside a room, name the file that you mean: the room's index is its door to others",
      severity: 'error',
      from: { path: '^libs/([^/]+)/src/', pathNot: '\\.spec\\.ts$' },
      to: { path: '^libs/$1/(src|dist)/index\\.' },
    },
    {
      name: 'page-apart',
      comment: 'the page knows the server only through the schema',
      severity: 'error',
      from: { path: '^apps/web/' },
      to: { path: '^(libs|apps/(api|worker))/', pathNot: '^apps/api/schema\\.graphql$' },
    },
    {
      name: 'tests-stay-out-of-the-product',
      comment: 'what serves only tests and the bench is never part of the product',
      severity: 'error',
      from: { path: '^(libs|apps)/', pathNot: '\\.(spec|fixture)\\.ts$' },
      to: { path: '^test/' },
    },
    {
      name: 'no-dev-only-in-product',
      comment: 'the product runs without development packages',
      severity: 'error',
      from: { path: '^(libs|apps/(api|worker))/', pathNot: '\\.(spec|fixture)\\.ts$' },
      to: { dependencyTypes: ['npm-dev'], dependencyTypesNot: ['npm'] },
    },
    {
      name: 'known-packages-only',
      comment: 'a package that package.json does not name can vanish with the next install',
      severity: 'error',
      from: { path: '^(libs|apps/(api|worker))/', pathNot: '\\.(spec|fixture)\\.ts$' },
      to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown', 'unknown'] },
    },
  ],
  options: {
    tsConfig: { fileName: require('node:path').join(__dirname, 'tsconfig.cruise.json') },
    tsPreCompilationDeps: true,
    combinedDependencies: true,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/|^apps/web/src/gql/' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'default'],
      extensions: ['.ts', '.tsx', '.js'],
    },
  },
};
