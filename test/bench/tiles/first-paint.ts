import { existsSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { chromium } from '@playwright/test'
import { build } from 'esbuild'
import { buildBasemap } from '@/lib/launch/build-basemap'

const PUBLIC = '.bench/public'
const CHROMIUM = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium'
const FLAGS = [
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
]
const PAGE =
  '<!doctype html><style>html,body,#map{margin:0;height:100%}</style><div id="map"></div><script type="module" src="/page.js"></script>'
const TYPES: Record<string, string> = { '.mjs': 'text/javascript', '.js': 'text/javascript', '.woff2': 'font/woff2' }

export type CutTile = (layer: 'splices' | 'circuits', tile: { z: number; x: number; y: number }) => Uint8Array

export interface FirstPaint {
  view: string
  marksMs: number
  idleMs: number
}

async function bundle(): Promise<Uint8Array> {
  const { outputFiles } = await build({
    entryPoints: ['test/bench/tiles/first-paint-page.ts'],
    bundle: true,
    format: 'esm',
    write: false,
    minify: true,
    alias: { '@': process.cwd() },
  })
  return outputFiles[0]?.contents ?? new Uint8Array()
}

function send(res: ServerResponse, status: number, type: string, bytes: Uint8Array | string, headers: Record<string, string> = {}): void {
  res.writeHead(status, { 'Content-Type': type, ...headers }).end(bytes)
}

async function answer(req: IncomingMessage, res: ServerResponse, cut: CutTile, page: Uint8Array): Promise<void> {
  const path = new URL(req.url ?? '/', 'http://bench').pathname
  const tile = /^\/tiles\/(splices|circuits)\/(\d+)\/(\d+)\/(\d+)$/.exec(path)
  if (tile) {
    const bytes = cut(tile[1] === 'splices' ? 'splices' : 'circuits', { z: Number(tile[2]), x: Number(tile[3]), y: Number(tile[4]) })
    return send(res, bytes.length > 0 ? 200 : 204, 'application/vnd.mapbox-vector-tile', bytes)
  }
  if (path === '/') return send(res, 200, 'text/html', PAGE)
  if (path === '/page.js') return send(res, 200, 'text/javascript', page)
  const file = join(PUBLIC, path)
  if (!existsSync(file)) return send(res, 404, 'text/plain', '')
  const bytes = await readFile(file)
  const type = TYPES[path.slice(path.lastIndexOf('.'))] ?? 'application/octet-stream'
  const range = /^bytes=(\d+)-(\d+)$/.exec(req.headers.range ?? '')
  if (!range) return send(res, 200, type, bytes)
  const [from, to] = [Number(range[1]), Math.min(bytes.length - 1, Number(range[2]))]
  send(res, 206, type, bytes.subarray(from, to + 1), { 'Content-Range': `bytes ${from}-${to}/${bytes.length}` })
}

/** Opens each view in a fresh Chromium page with software WebGL and says when marks were on screen and when everything was. */
export async function firstPaint(cut: CutTile, views: string[]): Promise<FirstPaint[]> {
  await buildBasemap(PUBLIC)
  const page = await bundle()
  const server = createServer((req, res) => void answer(req, res, cut, page))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: FLAGS })
  try {
    const paints: FirstPaint[] = []
    for (const view of views) {
      const tab = await browser.newPage({ viewport: { width: 1280, height: 800 } })
      await tab.goto(`http://127.0.0.1:${port}/#${view}`)
      await tab.waitForSelector('body[data-seen]', { timeout: 60_000 })
      const seen = JSON.parse((await tab.locator('body').getAttribute('data-seen')) ?? '{}') as Omit<FirstPaint, 'view'>
      paints.push({ view, ...seen })
      await tab.close()
    }
    return paints
  } finally {
    await browser.close()
    server.close()
  }
}
