/**
 * Types for every question that the page asks, from the API's committed schema.
 * Written to src/gql at each build.
 *
 * @type {import('@graphql-codegen/cli').CodegenConfig}
 */
const config = {
  schema: '../api/schema.graphql',
  documents: ['src/**/*.ts', 'src/**/*.tsx', '!src/gql/**'],
  silent: true,
  noSilentErrors: true,
  generates: {
    './src/gql/': {
      preset: 'client',
      presetConfig: { fragmentMasking: false },
      config: {
        strictScalars: true,
        scalars: { DateTime: 'string', LocalDate: 'string', LocalTime: 'string', JSONDocument: 'unknown' },
        enumsAsTypes: true,
        useTypeImports: true,
        importExtension: '.js',
      },
    },
  },
};

export default config;
