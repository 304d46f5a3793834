import { DEMO_DIR } from './demo-database'
import type { Holds } from './demo-utility'

/** The command as it is typed to come back to the same database. */
const command = (dir: string, ...more: string[]): string => {
  const args = [...dir === DEMO_DIR ? [] : ['--data', dir], ...more]
  return ['npm run demo', ...args.length > 0 ? ['--', ...args] : []].join(' ')
}

/** Where the demo is, and what becomes of what is done in it. To remove a utility of somebody's own is never offered. */
export const readyText = (url: string, dir: string, holds: Holds): string => [
  '', ...holds === 'own' ? [`${dir} holds its own utility; served as it is, without the demo's.`] : [], `Spanledger is at ${url}`,
  `Ctrl-C stops it. What you do here is kept in ${dir}, and the next start goes on with it${holds === 'own' ? '.' : `; ${command(dir, '--fresh')} removes it and starts over.`}`,
].join('\n')

/**
 * What stands after Ctrl-C.
 * @param holds null where it ended before it was ready
 */
export const endedText = (dir: string, holds: Holds | null): string => (holds === null
  ? `Stopped before the demo was ready. What was loaded so far is kept in ${dir}: ${command(dir)} goes on from there.`
  : `Stopped. What was done is kept in ${dir}: ${command(dir)} goes on with it${holds === 'own' ? '.' : `, ${command(dir, '--fresh')} removes it and starts over.`}`)

/** Why a store is not started over. */
export const ownUtilityText = (dir: string): string => `${dir} holds its own utility, not the demo's, and --fresh would remove it. `
  + `${command(dir)} serves it as it is; where it is to go, remove the directory ${dir} by hand.`
