import { spawnSync } from 'node:child_process'
import fs from 'node:fs'

const SHELL = '/usr/bin/chromium-headless-shell' // the same engine without a window's own pages, which cost as much as ours
const KNOWN = [
  SHELL, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

/** A Chromium that is installed: CHROMIUM_PATH, else where systems put it. */
export function findChromium(): string | undefined {
  const { CHROMIUM_PATH } = process.env
  return (CHROMIUM_PATH ? [CHROMIUM_PATH] : KNOWN).find((file) => fs.existsSync(file))
}

/** True where the tests' favourite is there, or somebody chose another by CHROMIUM_PATH. */
export const hasChromiumShell = (): boolean => process.env.CHROMIUM_PATH !== undefined || fs.existsSync(SHELL)

/** True where this machine lets us install Debian's package. */
export const mayInstallChromium = (): boolean => process.getuid?.() === 0 && fs.existsSync('/usr/bin/apt-get')

/** Installs Debian's Chromium without a window. Throws with apt's words. */
export function installChromium(): void {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  for (const args of [['update', '-qq'], ['install', '-y', '-qq', '--no-install-recommends', 'chromium-headless-shell']]) {
    const { status, stderr, error } = spawnSync('apt-get', args, { env, stdio: ['ignore', 'ignore', 'pipe'], encoding: 'utf8' })
    if (status !== 0) throw new Error(`apt-get ${args.join(' ')} failed:\n${stderr || error?.message || ''}`)
  }
}

/** What to tell who must install it. */
export const CHROMIUM_REMEDY = 'The browser tests need Chromium, which is not here and which this account may not install. '
  + 'Install it (on Debian: sudo apt-get install chromium-headless-shell) or set CHROMIUM_PATH to a Chrome or Chromium, then run npm test again.'
