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

export default {
  rootDir: '../..',
  testEnvironment: 'node',
  extensionsToTreatAsEsm: ['.ts'],
  transform: { '^.+\\.ts$': ['@swc/jest', swc] },
  moduleNameMapper: {
    '^@ribband/(engine|hull|platform|access|crew|repair|roster|planning)$': '<rootDir>/libs/$1/src/index.ts',
    '^(\\.{1,2}/.*)\\.js$': '$1',
  },
  testPathIgnorePatterns: ['/node_modules/', '/dist/'],
  modulePathIgnorePatterns: ['/dist/'],
  testTimeout: 30_000,
  maxWorkers: 2,
};
