import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'

/** Each test file copies this database: a migrated, empty store. */
const TEMPLATE = 'spanledger_template'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the migrated template on the one server that all store tests share. */
    templateUrl: string
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-store-'))
  fs.chmodSync(dir, 0o755) // run as root, the server is another user
  const server = await startEmbeddedPostgres({ dataDir: path.join(dir, 'pg'), database: TEMPLATE })
  await migrate(server.url)
  project.provide('templateUrl', server.url)
  return async () => {
    await server.stop()
    fs.rmSync(dir, { recursive: true, force: true })
  }
}
