import { DEMO_DIR } from './demo-database'

/** The command as it is typed to come back to the same database. */
const command = (dir: string, ...more: string[]): string => {
  const args = [...dir === DEMO_DIR ? [] : ['--data', dir], ...more]
  return ['npm run demo', ...args.length > 0 ? ['--', ...args] : []].join(' ')
}

/** Where the demo is, and what becomes of what is done in it. */
export const readyText = (url: string, dir: string): string => [
  '', `Spanledger is at ${url}`,
  `Ctrl-C stops it. What you do here is kept in ${dir}, and the next start goes on with it; ${command(dir, '--fresh')} removes it and starts over.`,
].join('\n')

/** What stands after Ctrl-C. */
export const endedText = (dir: string, wasReady: boolean): string => (wasReady
  ? `Stopped. What was done is kept in ${dir}: ${command(dir)} goes on with it, ${command(dir, '--fresh')} removes it and starts over.`
  : `Stopped before the demo was ready. What was loaded so far is kept in ${dir}: ${command(dir)} goes on from there.`)
