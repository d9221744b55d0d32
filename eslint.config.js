import js from '@eslint/js';
import tseslint from 'typescript-eslint';

/** Inside the core nothing may reach outwards: no server, no database, no clock. */
const pureCore = {
  files: ['src/core/**/*.ts'],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          {
            group: ['fastify*', '@fastify/*', 'drizzle-orm*', 'better-sqlite3', 'node:*'],
            message: 'The core is pure.',
          },
          { group: ['**/store/**', '**/http/**', '**/render/**'], message: 'Dependencies point inward.' },
        ],
      },
    ],
    'no-restricted-globals': ['error', 'process', 'setTimeout', 'setInterval', 'fetch'],
    'no-restricted-properties': [
      'error',
      { object: 'Date', property: 'now', message: 'The core has no clock: take the date as an argument.' },
      { object: 'Math', property: 'random', message: 'The core is deterministic.' },
    ],
  },
};

/** Which folders a folder may not import from: dependencies point inward, and neighbours meet further out. */
const forbidden = (folder, others) => ({
  files: [`src/${folder}/**/*.ts`],
  rules: {
    '@typescript-eslint/no-restricted-imports': [
      'error',
      {
        patterns: [
          {
            regex: `^(\\.\\./)+(${others.join('|')})(/|\\.js$)`,
            message: `Dependencies point inward: src/${folder} knows none of these.`,
          },
          ...(folder === 'render'
            ? [
                {
                  regex: '^(\\.\\./)+store/',
                  allowTypeImports: true,
                  message: 'Renderers take answers as types.',
                },
              ]
            : []),
        ],
      },
    ],
  },
});
const PROCESS = ['commands', 'app', 'server', 'main', 'metrics'];
const directions = [
  forbidden('core', ['store', 'http', 'render', 'webhooks', ...PROCESS]),
  forbidden('store', ['http', 'render', 'webhooks', ...PROCESS]),
  forbidden('render', ['http', 'webhooks', ...PROCESS]),
  forbidden('webhooks', ['http', 'render', ...PROCESS]),
  forbidden('http', PROCESS),
];

export default tseslint.config(
  { ignores: ['dist', 'data', 'coverage', 'node_modules', 'screens', 'clients/typescript/schema.d.ts'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-console': 'error',
    },
  },
  { files: ['src/commands/**', 'seed/**', 'bench/**', 'clients/**'], rules: { 'no-console': 'off' } },
  { files: ['clients/**/*.mjs'], languageOptions: { globals: { console: 'readonly', process: 'readonly' } } },
  pureCore,
  ...directions,
);
