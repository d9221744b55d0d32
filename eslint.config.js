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
const PROCESS = ['commands', 'app', 'server', 'main', 'startUp', 'metrics'];
const directions = [
  forbidden('core', ['store', 'http', 'render', 'webhooks', ...PROCESS]),
  forbidden('store', ['http', 'render', 'webhooks', ...PROCESS]),
  forbidden('render', ['http', 'webhooks', ...PROCESS]),
  forbidden('webhooks', ['http', 'render', ...PROCESS]),
  forbidden('http', PROCESS),
];

const DATABASES = [
  'better-sqlite3',
  'drizzle-orm/sqlite-core*',
  'drizzle-orm/better-sqlite3*',
  'pg',
  'drizzle-orm/pg-core*',
  'drizzle-orm/pg-proxy*',
];
const OWN_STATEMENTS = {
  selector: "Identifier[name='$client']",
  message: 'Only src/store/engine writes statements for a connection of its own.',
};

/** What is an engine's own stays in its folder. */
const engines = {
  files: ['src/**/*.ts'],
  ignores: ['src/store/engine/**'],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          { group: DATABASES, message: 'Only src/store/engine knows which database there is.' },
          { regex: '/store/engine/', message: 'Only src/store knows its engine.' },
        ],
      },
    ],
    'no-restricted-syntax': ['error', OWN_STATEMENTS],
  },
};

/** A call that runs a work in a transaction or on a snapshot. */
const ON_A_VIEW = 'CallExpression[callee.name=/^(write|writeFromReserve|changeHistory|consistently)$/]';

/** The operations know an engine by its contract alone; only the files left out here choose one. */
const operations = {
  files: ['src/store/**/*.ts'],
  ignores: ['src/store/engine/**', 'src/store/open.ts', 'src/store/moving.ts', 'src/store/upkeep.ts'],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          {
            group: [...DATABASES, 'drizzle-orm*'],
            message: 'Queries belong in an engine; src/store/engine/contract says what they answer.',
          },
          {
            regex: '/engine/(?!contract/)',
            message: 'The operations know an engine by its contract alone.',
          },
        ],
      },
    ],
    'no-restricted-syntax': [
      'error',
      OWN_STATEMENTS,
      {
        selector: `${ON_A_VIEW} ${ON_A_VIEW}`,
        message: 'A transaction or snapshot within another one would wait for itself.',
      },
      {
        selector: `${ON_A_VIEW} Identifier[name='reading']`,
        message: 'Within a transaction or a snapshot, read by way of the argument of its work.',
      },
    ],
  },
};

/** The contract of engines, and each engine, know nothing of the operations. */
const ofEngine = {
  files: ['src/store/engine/**/*.ts'],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          {
            regex:
              '^(\\.\\./)+(access|events|experience|imports|operation|outlooks|reports|settings|vehicles|visits)/',
            message: 'An engine knows only contracts and the core.',
          },
        ],
      },
    ],
  },
};

/** Rules that need types, for the program itself; tests, benches and the demo's seed have the rules without types. */
const typed = {
  files: ['src/**/*.ts'],
  extends: [tseslint.configs.strictTypeChecked],
  languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
  rules: {
    '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
    // What is asynchronous by contract need not wait for anything itself: the store, route handlers, hooks.
    '@typescript-eslint/require-await': 'off',
    '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
    // Stores and adapters are objects of closures: their methods know no `this` and may be passed on.
    '@typescript-eslint/unbound-method': 'off',
    // A type parameter may say what another process sends, or what a column of JSON holds.
    '@typescript-eslint/no-unnecessary-type-parameters': 'off',
    // The program has neither enums nor classes with members that could be mixed up; these two rules cost the most time.
    '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
    '@typescript-eslint/no-unsafe-enum-assignment': 'off',
  },
};

export default tseslint.config(
  { ignores: ['dist', 'data', 'coverage', 'node_modules', 'screens', 'clients/typescript/schema.d.ts'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  typed,
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
  engines,
  operations,
  ofEngine,
  pureCore,
  ...directions,
);
