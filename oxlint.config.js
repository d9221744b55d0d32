/**
 * The rules that need types come from TypeScript 7 (`oxlint-tsgolint`). Every rule is named, so that a new version of the
 * linter adds none by itself.
 */

/** The recommended rules for JavaScript. */
const JAVASCRIPT = [
  'for-direction',
  'no-async-promise-executor',
  'no-case-declarations',
  'no-compare-neg-zero',
  'no-cond-assign',
  'no-constant-binary-expression',
  'no-constant-condition',
  'no-control-regex',
  'no-debugger',
  'no-delete-var',
  'no-dupe-else-if',
  'no-duplicate-case',
  'no-empty',
  'no-empty-character-class',
  'no-empty-pattern',
  'no-empty-static-block',
  'no-ex-assign',
  'no-extra-boolean-cast',
  'no-fallthrough',
  'no-global-assign',
  'no-invalid-regexp',
  'no-irregular-whitespace',
  'no-loss-of-precision',
  'no-misleading-character-class',
  'no-nonoctal-decimal-escape',
  'no-prototype-builtins',
  'no-regex-spaces',
  'no-self-assign',
  'no-shadow-restricted-names',
  'no-sparse-arrays',
  'no-unassigned-vars',
  'no-unexpected-multiline',
  'no-unsafe-finally',
  'no-unsafe-optional-chaining',
  'no-unused-labels',
  'no-unused-private-class-members',
  'no-useless-assignment',
  'no-useless-backreference',
  'no-useless-catch',
  'no-useless-escape',
  'preserve-caught-error',
  'require-yield',
  'use-isnan',
  'valid-typeof',
  'no-var',
  'prefer-const',
  'prefer-rest-params',
  'prefer-spread',
  'no-array-constructor',
  'no-unused-expressions',
  'no-useless-constructor',
];

/** The strict rules for TypeScript that need no types. */
const TYPESCRIPT = [
  'ban-ts-comment',
  'no-duplicate-enum-values',
  'no-dynamic-delete',
  'no-empty-object-type',
  'no-explicit-any',
  'no-extra-non-null-assertion',
  'no-extraneous-class',
  'no-invalid-void-type',
  'no-misused-new',
  'no-namespace',
  'no-non-null-asserted-nullish-coalescing',
  'no-non-null-asserted-optional-chain',
  'no-require-imports',
  'no-this-alias',
  'no-unnecessary-type-constraint',
  'no-unsafe-declaration-merging',
  'no-unsafe-function-type',
  'no-wrapper-object-types',
  'prefer-as-const',
  'prefer-literal-enum-member',
  'prefer-namespace-keyword',
  'triple-slash-reference',
  'unified-signatures',
  'consistent-type-imports',
];

/** The strict rules that need types, for the program itself; tests, benches and the demo's seed have the others. */
const TYPED = [
  'await-thenable',
  'no-array-delete',
  'no-base-to-string',
  'no-deprecated',
  'no-duplicate-type-constituents',
  'no-floating-promises',
  'no-for-in-array',
  'no-generated-empty-object-type',
  'no-implied-eval',
  'no-meaningless-void-operator',
  'no-misused-promises',
  'no-misused-spread',
  'no-mixed-enums',
  'no-redundant-type-constituents',
  'no-unnecessary-boolean-literal-compare',
  'no-unnecessary-condition',
  'no-unnecessary-template-expression',
  'no-unnecessary-type-arguments',
  'no-unnecessary-type-assertion',
  'no-unnecessary-type-conversion',
  'no-unsafe-argument',
  'no-unsafe-assignment',
  'no-unsafe-call',
  'no-unsafe-enum-comparison',
  'no-unsafe-member-access',
  'no-unsafe-return',
  'no-unsafe-unary-minus',
  'no-useless-default-assignment',
  'only-throw-error',
  'prefer-promise-reject-errors',
  'prefer-reduce-type-parameter',
  'prefer-return-this-type',
  'related-getter-setter-pairs',
  'return-await',
  'use-unknown-in-catch-callback-variable',
];

const errors = (names, plugin = '') => Object.fromEntries(names.map((name) => [plugin + name, 'error']));

const DATABASES = [
  'better-sqlite3',
  'drizzle-orm/sqlite-core*',
  'drizzle-orm/better-sqlite3*',
  'pg',
  'drizzle-orm/pg-core*',
  'drizzle-orm/pg-proxy*',
];
const DATABASE = { group: DATABASES, message: 'Only src/store/engine knows which database there is.' };
/** What the folders outside the store may not import of it. */
const ENGINES = [DATABASE, { regex: '/store/engine/', message: 'Only src/store knows its engine.' }];
/** The operations know an engine by its contract alone; only these files choose one. */
const ENGINE_CHOOSERS = ['src/store/open.ts', 'src/store/moving.ts', 'src/store/upkeep.ts'];
const BEHIND_THE_CONTRACT = [
  {
    group: [...DATABASES, 'drizzle-orm*'],
    message: 'Queries belong in an engine; src/store/engine/contract says what they answer.',
  },
  {
    group: ['**/engine/**', '!**/engine/contract/**'],
    message: 'The operations know an engine by its contract alone.',
  },
];
/** The contract of engines, and each engine, know nothing of the operations. */
const OPERATIONS = {
  regex: '^(\\.\\./)+(access|events|experience|imports|operation|outlooks|reports|settings|vehicles|visits)/',
  message: 'An engine knows only contracts and the core.',
};
/** Inside the core nothing may reach outwards: no server, no database, no clock. */
const PURE = {
  group: ['fastify*', '@fastify/*', 'drizzle-orm*', 'better-sqlite3', 'node:*'],
  message: 'The core is pure.',
};
const TYPES_OF_THE_STORE = {
  regex: '^(\\.\\./)+store/',
  allowTypeImports: true,
  message: 'Renderers take answers as types.',
};
const PROCESS = ['commands', 'app', 'server', 'main', 'startUp', 'metrics'];

/** What a folder may not import: dependencies point inward, and neighbours meet further out. The last match applies. */
const forbidden = (folder, others, ...further) => ({
  files: [`src/${folder}/**/*.ts`],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          ...further,
          {
            regex: `^(\\.\\./)+(${others.join('|')})(/|\\.js$)`,
            message: `Dependencies point inward: src/${folder} knows none of these.`,
          },
        ],
      },
    ],
  },
});
const OUTSIDE_THE_STORE = ['http', 'render', 'webhooks', ...PROCESS];

export default {
  plugins: ['typescript'],
  jsPlugins: ['./scripts/lintRules.js'],
  categories: { correctness: 'off' },
  options: { typeAware: true, typeCheck: true },
  ignorePatterns: ['dist', 'data', 'coverage', 'screens', 'clients/typescript/schema.d.ts'],
  rules: {
    ...errors(JAVASCRIPT),
    ...errors(TYPESCRIPT, 'typescript/'),
    'no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
    eqeqeq: ['error', 'always', { null: 'ignore' }],
    'no-console': 'error',
  },
  overrides: [
    {
      files: ['src/**/*.ts'],
      rules: {
        ...errors(TYPED, 'typescript/'),
        'typescript/restrict-plus-operands': [
          'error',
          {
            allowAny: false,
            allowBoolean: false,
            allowNullish: false,
            allowNumberAndString: false,
            allowRegExp: false,
          },
        ],
        'typescript/restrict-template-expressions': ['error', { allowNumber: true }],
        'typescript/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      },
    },
    {
      files: ['src/commands/**', 'seed/**', 'bench/**', 'clients/**', 'scripts/**'],
      rules: { 'no-console': 'off' },
    },
    // Only src/store/engine may use what belongs to one engine.
    {
      files: ['src/**/*.ts'],
      excludeFiles: ['src/store/engine/**'],
      rules: {
        'no-restricted-imports': ['error', { patterns: ENGINES }],
        'no-restricted-properties': [
          'error',
          {
            property: '$client',
            message: 'Only src/store/engine writes statements for a connection of its own.',
          },
        ],
      },
    },
    forbidden('store', OUTSIDE_THE_STORE, ...BEHIND_THE_CONTRACT),
    {
      files: ['src/store/**/*.ts'],
      excludeFiles: ['src/store/engine/**', ...ENGINE_CHOOSERS],
      rules: { 'store/read-by-argument': 'error' },
    },
    { ...forbidden('store', OUTSIDE_THE_STORE, DATABASE), files: [...ENGINE_CHOOSERS] },
    forbidden('store/engine', OUTSIDE_THE_STORE, OPERATIONS),
    forbidden('render', ['http', 'webhooks', ...PROCESS], ...ENGINES, TYPES_OF_THE_STORE),
    forbidden('webhooks', ['http', 'render', ...PROCESS], ...ENGINES),
    forbidden('http', PROCESS, ...ENGINES),
    forbidden('core', ['store', ...OUTSIDE_THE_STORE], PURE),
    {
      files: ['src/core/**/*.ts'],
      rules: {
        'no-restricted-globals': ['error', 'process', 'setTimeout', 'setInterval', 'fetch'],
        'no-restricted-properties': [
          'error',
          {
            object: 'Date',
            property: 'now',
            message: 'The core has no clock: take the date as an argument.',
          },
          { object: 'Math', property: 'random', message: 'The core is deterministic.' },
        ],
      },
    },
  ],
};
