import js from '@eslint/js';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  {
    ignores: [
      '**/dist/**',
      '**/node_modules/**',
      'apps/web/src/gql/**',
      'coverage/**',
      'data/**',
      'test/output/**',
    ],
  },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [...tseslint.configs.strictTypeChecked],
    languageOptions: {
      parserOptions: {
        project: [
          'libs/*/tsconfig.json',
          'apps/*/tsconfig.json',
          // As patterns, so that they are tried after the rooms' own settings: a plain path comes first.
          'test/tsconfig.jso[n]',
          'test/bench/tsconfig.jso[n]',
        ],
        tsconfigRootDir: new URL('../..', import.meta.url).pathname,
      },
    },
    rules: {
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // Decorated constructor parameters are the whole body of many Nest constructors.
      '@typescript-eslint/no-useless-constructor': 'off',
      // Reading one entry of an array whose length was just checked is the engine's daily bread.
      '@typescript-eslint/no-non-null-assertion': 'off',
      // Rows and GraphQL types are classes only so that decorators can describe them; they are made as plain objects.
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
      '@typescript-eslint/no-misused-spread': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      eqeqeq: ['error', 'always'],
      'no-console': 'error',
    },
  },
  {
    // What a command prints is its purpose.
    files: ['apps/*/src/*.ts', 'test/bench/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.spec.ts', 'test/**/*.ts'],
    rules: {
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/require-await': 'off',
    },
  },
  {
    files: ['**/*.{js,mjs,cjs}'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        URL: 'readonly',
        setTimeout: 'readonly',
        module: 'writable',
        __dirname: 'readonly',
      },
    },
  },
);
