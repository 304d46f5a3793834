// The door of every command: `node lib/launch/command.mjs NAME ...`. Plain Node, so that it works in a fresh clone;
// it installs the packages and generates the database client where needed, then runs commands/NAME.ts.
import { generateClient } from './generate.mjs'
import { asksForHelp, HELP } from './help.mjs'
import { install, needsInstall, requireNode } from './install.mjs'
import { portAsked, whyNotPort } from './port.mjs'
import { root } from './root.mjs'
import { say, step, warn } from './steps.mjs'
import { usageSentence } from './usage.mjs'

process.env.NEXT_TELEMETRY_DISABLED = '1'
const SERVES = ['demo', 'dev']
const [name = '', ...args] = process.argv.slice(2)
try {
  if (asksForHelp(args)) say(HELP[name] ?? '')
  if (!asksForHelp(args) || name === 'import') await run() // the import's help goes on with what it reads of each kind
} catch (e) {
  warn(e instanceof Error ? (process.env.DEBUG ? e.stack ?? e.message : usageSentence(name, e)) : String(e))
  process.exitCode = 1
}

async function run() {
  process.env.INIT_CWD ??= process.cwd() // where the user stood: paths of files are read from there
  process.chdir(root)
  requireNode()
  if (SERVES.includes(name)) await mustBeFree(portAsked()) // told before minutes of installing and building
  if (needsInstall()) await step('Installing the packages of the lock file', install)
  generateClient()
  const { register } = await import('tsx/esm/api')
  register()
  const command = await import(`./commands/${name}.ts`)
  process.exitCode = await command.run(args)
}

/** @param {number} port */
async function mustBeFree(port) {
  const taken = await whyNotPort(port, `npm run ${name}`)
  if (taken) throw new Error(taken)
}
