import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { chromium } from '@playwright/test'
import { build } from 'esbuild'
import { assessRates } from './engine/assess'

/**
 * The condition engine in Node and, the same code and work, in Chromium, where the calculator and the loading screens run it. In Node twice: bundled and
 * minified, as the server's own build has it, whose background work assesses what people send; and as commands load it, whose loader keeps the
 * names of functions and pays for each inner one.
 * Goals: 200,000 assessments a second of resistance and 20,000 with infrared, 2,000 joints within one frame of 16 ms.
 */
const say = (line: string) => process.stdout.write(`${line}\n`)

const bundled = path.join('.bench', 'engine.mjs')
await build({
  entryPoints: ['test/bench/engine/node.ts'], bundle: true, platform: 'node', format: 'esm', outfile: bundled, minify: true, alias: { '@': process.cwd() },
})
say('Node, bundled and minified, as the server runs it:')
const { status } = spawnSync(process.execPath, [bundled], { stdio: 'inherit' })
fs.rmSync(bundled)
if (status !== 0) throw new Error('The bundled engine did not run to its end.')
say('Node, as the import command loads it, with the names of functions kept:')
assessRates(say)

const { outputFiles } = await build({
  entryPoints: ['test/bench/engine/page.ts'], bundle: true, format: 'iife', write: false, minify: true, alias: { '@': process.cwd() },
  define: { 'globalThis.process': 'undefined' },
})
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium', args: ['--no-sandbox'] })
try {
  const page = await browser.newPage()
  page.on('pageerror', (error) => say(error.message))
  await page.setContent('<!doctype html><title>bench</title><body></body>')
  await page.addScriptTag({ content: outputFiles[0]?.text ?? '' })
  await page.waitForSelector('body[data-done]', { state: 'attached', timeout: 600_000 })
  say(`Chromium ${browser.version()}:\n${await page.locator('body').textContent()}`)
} finally {
  await browser.close()
}
