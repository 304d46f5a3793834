import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { afterAll, beforeAll, inject } from 'vitest'
import { closeDatabase } from '@/lib/store/database'

/** Gives the test file a store of its own, migrated and empty, for as long as it runs. */
export function useDatabase(): void {
  const name = `t_${randomUUID().replaceAll('-', '')}`
  const template = new URL(inject('templateUrl'))
  const admin = new URL(template)
  admin.pathname = '/postgres'

  beforeAll(async () => {
    await ask(admin.href, `CREATE DATABASE ${name} TEMPLATE ${template.pathname.slice(1)}`)
    const own = new URL(template)
    own.pathname = `/${name}`
    process.env.DATABASE_URL = own.href
  })

  afterAll(async () => {
    await closeDatabase()
    forgetIndexes()
    await ask(admin.href, `DROP DATABASE IF EXISTS ${name} WITH (FORCE)`)
  })
}

/** Files share an environment, and tiles keep their indexes in it by a scope and a data version that the next file's store has too. */
function forgetIndexes(): void {
  const { spanledgerTiles: tiles, spanledgerSurvey: survey } = globalThis as { spanledgerTiles?: Map<string, unknown>; spanledgerSurvey?: Record<string, Map<string, unknown>> }
  for (const kept of [tiles, ...Object.values(survey ?? {})]) kept?.clear()
}

async function ask(url: string, text: string): Promise<void> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    await client.query(text)
  } finally {
    await client.end()
  }
}
