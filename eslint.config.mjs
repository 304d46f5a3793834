import next from 'eslint-config-next/core-web-vitals'
import typescript from 'eslint-config-next/typescript'
import importX, { createNodeResolver } from 'eslint-plugin-import-x'

const SOURCES = ['**/*.{ts,tsx,mts,mjs}']
const PURE = ['condition', 'geo', 'units', 'result', 'contract']
const inLib = (/** @type {string[]} */ rooms) => rooms.map((room) => `lib/${room}/**`)

/** What each room of lib may import of ours, beside itself. A room that is not named may import every room but launch. */
const MAY_IMPORT = {
  units: [],
  result: [],
  contract: [],
  condition: ['units', 'result'],
  geo: ['units', 'result'],
  intake: ['units', 'result', 'geo', 'condition', 'contract'],
  store: ['units', 'result', 'geo', 'condition', 'intake', 'contract'],
  tiles: ['units', 'result', 'geo', 'condition', 'contract', 'store'],
}

const namesOf = (/** @type {string[]} */ rooms) => (rooms.length === 0 ? 'nothing of ours' : `only ${rooms.join(', ')} of lib`)
const roomZones = Object.entries(MAY_IMPORT).map(([room, allowed]) => ({
  target: `./lib/${room}`,
  from: './lib',
  except: [room, ...allowed].map((name) => `./${name}`),
  message: `lib/${room} may import ${namesOf(allowed)}. Pass the rest in as values.`,
}))

const withoutReact = Object.fromEntries(next.flatMap(({ rules }) => Object.keys(rules ?? {}))
  .filter((rule) => /^(react|react-hooks|jsx-a11y)\//.test(rule)).map((rule) => [rule, 'off']))

const databaseImports = {
  patterns: [{
    group: ['pg', 'pg-copy-streams', '@prisma/*', '**/store/generated/**'],
    message: 'Only lib/store, lib/jobs and lib/launch talk to the database. Ask lib/store for what you need.',
  }],
}

const pureImports = {
  patterns: [
    ...databaseImports.patterns,
    {
      group: ['node:*', 'fs', 'path', 'os', 'crypto', 'child_process'],
      message: 'A pure room runs in the browser too. Pass in what you need as a value.',
    },
    {
      group: ['react', 'react-dom', 'react/*', 'next', 'next/*'],
      message: 'A pure room knows no screen. Return a value and let components draw it.',
    },
  ],
}

const config = [
  { ignores: ['.next/**', '.data/**', '.bench/**', 'public/**', 'lib/store/generated/**', 'next-env.d.ts', 'test-results/**'] },
  ...next,
  ...typescript,
  { linterOptions: { noInlineConfig: true } },
  {
    files: SOURCES,
    plugins: { 'import-x': importX },
    settings: {
      'import-x/extensions': ['.ts', '.tsx', '.mts', '.mjs'],
      'import-x/parsers': { '@typescript-eslint/parser': ['.ts', '.tsx', '.mts'] },
      'import-x/resolver-next': [createNodeResolver({
        extensions: ['.ts', '.tsx', '.mts', '.mjs', '.js'], alias: { '@': [import.meta.dirname] },
      })],
    },
    rules: {
      'import-x/no-cycle': ['error', { ignoreExternal: true }],
      'import-x/no-restricted-paths': ['error', {
        basePath: import.meta.dirname,
        zones: [
          ...roomZones,
          {
            target: ['./lib', './components', './prisma', './seed'], from: './app',
            message: 'Nothing imports app. Move the shared piece to lib or components.',
          },
          {
            target: './components', from: './lib', except: [...PURE, 'intake'].map((room) => `./${room}`),
            message: 'A component touches no data. Pass it in as props, or ask the API.',
          },
          { target: './app', from: './lib/launch', message: 'app serves requests; commands belong to lib/launch.' },
          {
            target: ['./lib/cases', './lib/jobs', './lib/export'], from: './lib/launch',
            message: 'Commands call the use cases, never the other way round.',
          },
        ],
      }],
      'no-restricted-imports': ['error', databaseImports],
      'no-restricted-syntax': ['error', {
        selector: 'ExportAllDeclaration',
        message: 'No barrels: import from the file that has it. A pure room names the exports of its one public face.',
      }],
      'no-console': 'error',
      'react-hooks/incompatible-library': 'off', // speaks to the React Compiler, which this build does not run
      'max-lines': ['error', 400],
      'max-len': ['error', { code: 240, ignoreUrls: true, ignoreRegExpLiterals: true }],
      semi: ['error', 'never'],
      quotes: ['error', 'single', { avoidEscape: true, allowTemplateLiterals: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', ignoreRestSiblings: true }],
    },
  },
  { files: [...inLib(['store', 'jobs', 'launch']), 'test/**', 'prisma.config.ts'], rules: { 'no-restricted-imports': 'off' } },
  {
    files: inLib(PURE),
    rules: {
      'no-restricted-imports': ['error', pureImports],
      'no-restricted-globals': ['error',
        { name: 'process', message: 'A pure room reads no environment. Pass the value in.' },
        { name: 'performance', message: 'A pure room has no clock. Pass the time in.' },
        { name: 'fetch', message: 'A pure room asks nobody. Pass the data in.' },
        { name: 'window', message: 'A pure room runs on the server too. Pass the value in.' },
        { name: 'document', message: 'A pure room runs on the server too. Pass the value in.' }],
      'no-restricted-properties': ['error',
        { object: 'Date', property: 'now', message: 'A pure room has no clock. Pass the time in.' },
        { object: 'Math', property: 'random', message: 'A pure room draws no random numbers. Pass a generator in.' }],
      'no-restricted-syntax': ['error',
        { selector: 'NewExpression[callee.name="Date"][arguments.length=0]', message: 'A pure room has no clock. Pass the time in.' },
        { selector: 'ExportAllDeclaration', message: 'No barrels: the public face of a pure room names its exports.' }],
    },
  },
  { files: ['lib/**', 'seed/**', 'test/**', '*.ts'], rules: withoutReact }, // no screens here, and these rules take the longest
]
export default config
