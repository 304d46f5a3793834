import next from 'eslint-config-next/core-web-vitals'
import typescript from 'eslint-config-next/typescript'
import importX, { createNodeResolver } from 'eslint-plugin-import-x'

const SOURCES = ['**/*.{ts,tsx,mts,mjs}']
const PURE = ['condition', 'geo', 'units', 'result', 'contract']
const inLib = (/** @type {string[]} */ rooms) => rooms.map((room) => `lib/${room}/**`)

/** What each room may import of lib beside itself: the table of DEVELOPERS.md. lib/launch and test may import everything. */
export const MAY_IMPORT = {
  'lib/units': [],
  'lib/result': [],
  'lib/contract': [],
  'lib/condition': ['units', 'result'],
  'lib/geo': ['units', 'result'],
  'lib/intake': ['units', 'result', 'geo', 'condition'],
  'lib/store': ['units', 'result', 'geo', 'condition', 'intake', 'contract'],
  'lib/tiles': ['units', 'result', 'geo', 'condition', 'contract', 'store'],
  'lib/cases': ['units', 'result', 'geo', 'condition', 'intake', 'contract', 'store'],
  'lib/jobs': ['cases', 'store'],
  'components': ['units', 'result', 'geo', 'condition', 'intake', 'contract'],
  'app': ['units', 'result', 'geo', 'condition', 'intake', 'contract', 'store', 'tiles', 'cases'],
  'seed': ['units', 'result', 'geo', 'condition', 'intake'],
}

/** Packages that pure rooms need; the others need none. */
const PACKAGES = /** @type {Record<string, string[]>} */ ({ condition: ['zod', 'jstat'], contract: ['zod'], geo: ['@turf/nearest-point-on-line', 'flatbush', 'geojson'] })

const namesOf = (/** @type {string[]} */ rooms) => (rooms.length === 0 ? 'nothing of ours' : `only ${rooms.join(', ')} of lib`)
const roomZones = Object.entries(MAY_IMPORT).map(([room, allowed]) => ({
  target: `./${room}`,
  from: './lib',
  except: [...(room.startsWith('lib/') ? [room.slice('lib/'.length)] : []), ...allowed].map((name) => `./${name}`),
  message: `${room} may import ${namesOf(allowed)}. Pass the rest in as values.`,
}))

const withoutReact = Object.fromEntries(next.flatMap(({ rules }) => Object.keys(rules ?? {}))
  .filter((rule) => /^(react|react-hooks|jsx-a11y)\//.test(rule)).map((rule) => [rule, 'off']))

const databaseImports = {
  patterns: [{
    group: ['pg', 'pg-copy-streams', '@prisma/*', '**/store/generated/**'],
    message: 'Only lib/store, lib/jobs and lib/launch talk to the database. Ask lib/store for what you need.',
  }],
}

/** @type {(room: string) => object} */
const pureImports = (room) => {
  const packages = PACKAGES[room] ?? []
  const only = packages.length === 0 ? 'no package' : `of packages only ${packages.join(', ')}`
  return {
    files: inLib([room]),
    rules: {
      'no-restricted-imports': ['error', {
        patterns: [{
          regex: `^(?!\\.|@/|(${packages.join('|') || '-'})$)`,
          message: `lib/${room} may import ${only}. A pure room runs in the browser too and knows no screen: pass in what you need as a value.`,
        }],
      }],
    },
  }
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
          { target: ['./lib', './components', './seed'], from: './app', message: 'Nothing imports app. Move the shared piece to lib or components.' },
          { target: ['./lib', './seed'], from: './components', message: 'lib and seed know no screen. Return a value and let components draw it.' },
          { target: ['./app', './components'], from: './seed', message: 'The invented utility is loaded by lib/launch, never shown.' },
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
  ...PURE.map(pureImports),
  { files: ['lib/**', 'seed/**', 'test/**', '*.ts'], rules: withoutReact }, // no screens here, and these rules take the longest
]
export default config
