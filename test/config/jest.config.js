/** Jest in ESM mode (Nest 12 is ESM only). Specs run from source; worker threads run from built files. */
const swc = {
  jsc: {
    target: 'es2022',
    parser: { syntax: 'typescript', decorators: true },
    transform: { legacyDecorator: true, decoratorMetadata: true, useDefineForClassFields: false },
    keepClassNames: true,
  },
  module: { type: 'es6' },
  sourceMaps: 'inline',
};

// A yard in a test is planned by one search in half a second, and few futures are lived through: enough to be judged by.
process.env['PLAN_SECONDS'] ??= '0.5';
process.env['PLAN_THREADS'] ??= '1';
process.env['FORECAST_FUTURES'] ??= '100';

export default {
  rootDir: '../..',
  testEnvironment: 'node',
  extensionsToTreatAsEsm: ['.ts'],
  transform: { '^.+\\.ts$': ['<rootDir>/test/config/transform.js', swc] },
  moduleNameMapper: {
    '^@ribband/(engine|hull|platform|access|crew|repair|roster|planning)$': '<rootDir>/libs/$1/src/index.ts',
    '^(\\.{1,2}/.*)\\.js$': '$1',
  },
  testPathIgnorePatterns: ['/node_modules/', '/dist/'],
  modulePathIgnorePatterns: ['/dist/'],
  testTimeout: 120_000,
  maxWorkers: 2,
  // Modules of a file that is done are never let go; a worker that holds gigabytes only collects garbage.
  workerIdleMemoryLimit: '1GB',
};
