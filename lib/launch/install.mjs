// Plain Node: it runs where no package is installed yet.
import { spawn } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { root } from './root.mjs'

const OLDEST_NODE = [20, 19]

/** Throws a sentence where this Node is too old for the packages. */
export function requireNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number)
  const [wantMajor = 0, wantMinor = 0] = OLDEST_NODE
  if (major > wantMajor || (major === wantMajor && minor >= wantMinor)) return
  throw new Error(`Spanledger needs Node ${OLDEST_NODE.join('.')} or newer; this is ${version}. Install one and run the command again.`)
}

/**
 * True where a package that the lock file names is missing or has another version.
 * npm writes what it installed to node_modules/.package-lock.json; times of files say nothing after a checkout.
 */
export function needsInstall(dir = root) {
  const read = (/** @type {string} */ file) => JSON.parse(fs.readFileSync(path.join(dir, file), 'utf8')).packages
  const wanted = read('package-lock.json')
  let installed
  try {
    installed = read('node_modules/.package-lock.json')
  } catch {
    return true
  }
  return Object.entries(wanted).some(([where, { version, optional, link }]) => (
    where !== '' && !optional && !link && installed[where]?.version !== version
  ))
}

/** Installs exactly what the lock file names. */
export function install() {
  return run(...npm('ci', '--no-audit', '--no-fund'))
}

/**
 * @param {...string} args
 * @returns {[string, string[]]}
 */
function npm(...args) {
  const cli = process.env.npm_execpath
  if (cli && /npm-cli\.[cm]?js$/.test(cli)) return [process.execPath, [cli, ...args]]
  return [process.platform === 'win32' ? 'npm.cmd' : 'npm', args]
}

/**
 * @param {string} command
 * @param {string[]} args
 */
function run(command, args) {
  return new Promise((resolve, reject) => {
    let output = ''
    const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], shell: command.endsWith('.cmd') })
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (/** @type {Buffer} */ bytes) => { output += bytes })
    child.once('error', reject)
    child.once('exit', (code) => {
      if (code === 0) return resolve(undefined)
      reject(new Error(`npm could not install the packages:\n${output.trim()}\nCheck the network or the registry, then run this again.`))
    })
  })
}
