import pino from 'pino'
import { startWorker } from '@/lib/jobs/worker'
import { allScope } from '@/lib/store/all-scope'
import { prepareTiles } from '@/lib/tiles/tiles'
import { migrate } from './migrate'

/**
 * What every server process does before its first request: it brings the database up to date (replicas wait for one another)
 * and takes part in the background work. A process that cannot do so ends with a sentence, for it could serve nobody.
 */
export async function boot(): Promise<void> {
  const url = process.env.DATABASE_URL
  try {
    if (!url) throw new Error('DATABASE_URL is not set. Set it to your PostgreSQL, or try the product with npm run demo.')
    await migrate(url)
    const log = pino({ name: 'spanledger-worker', level: process.env.LOG_LEVEL ?? 'info' })
    await startWorker(allScope(), { onFailure: (failure) => log.error(failure, 'background work came to nothing') })
    // Requests need not wait: a tile that is asked for meanwhile waits for the same index.
    prepareTiles(allScope()).catch((e: unknown) => log.error(e, 'the tiles could not be prepared'))
  } catch (e) {
    process.stderr.write(`The server cannot start. ${sentence(e)}\n`)
    process.exit(1)
  }
}

function sentence(e: unknown): string {
  const { message, syscall } = e as NodeJS.ErrnoException
  return syscall ? `The database does not answer (${message}). See that PostgreSQL runs and that DATABASE_URL names it.` : message
}
