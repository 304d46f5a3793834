// The door of every command: `node lib/launch/command.mjs NAME ...`. Plain Node, so that it works in a fresh clone;
// it installs the packages and generates the database client where needed, then runs commands/NAME.ts.
import { generateClient } from './generate.mjs'
import { install, needsInstall, requireNode } from './install.mjs'
import { root } from './root.mjs'
import { step, warn } from './steps.mjs'

process.env.NEXT_TELEMETRY_DISABLED = '1'
const [name = '', ...args] = process.argv.slice(2)
try {
  process.env.INIT_CWD ??= process.cwd() // where the user stood: paths of files are read from there
  process.chdir(root)
  requireNode()
  if (needsInstall()) await step('Installing the packages of the lock file', install)
  generateClient()
  const { register } = await import('tsx/esm/api')
  register()
  const { run } = await import(`./commands/${name}.ts`)
  process.exitCode = await run(args)
} catch (e) {
  warn(e instanceof Error ? (process.env.DEBUG ? e.stack ?? e.message : e.message) : String(e))
  process.exitCode = 1
}
