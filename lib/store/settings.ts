import { DEFAULT_PEAK_PERIODS } from '@/lib/condition/peak-periods'
import { settings as settingsSchema, type SettingsJson } from '@/lib/contract/settings'
import { onEverything, type Scope } from './scope'
import { join, sql } from './sql/sql'
import { database, type Db } from './transaction'

export const DEFAULT_SETTINGS: SettingsJson = {
  unit_system: 'metric',
  time_zone: 'UTC',
  utility_name: '',
  phase_letters: { A: 'A', B: 'B', C: 'C' },
  basemap: { kind: 'embedded' },
  information_mark: '',
  peak_periods: [...DEFAULT_PEAK_PERIODS],
}

/** The settings in force; what nobody has set, or what no longer reads, stands at its default. Every scope may read them. */
export async function getSettings(_scope: Scope, db: Db = database()): Promise<SettingsJson> {
  const stored = await db.rows<{ key: string; value: unknown }>(sql`SELECT key, value FROM setting`)
  const found = Object.fromEntries(stored.map(({ key, value }) => [key, value]))
  const entries = Object.entries(DEFAULT_SETTINGS).map(([key, standard]) => {
    const part = settingsSchema.shape[key as keyof SettingsJson].safeParse(found[key])
    return [key, part.success ? part.data : standard]
  })
  return Object.fromEntries(entries) as SettingsJson
}

/** Writes the settings given and leaves the others. Returns how many were written; none outside a scope of everything. */
export async function putSettings(scope: Scope, changed: Partial<SettingsJson>, db: Db): Promise<number> {
  const rows = Object.entries(changed).map(([key, value]) => sql`(${key}::text, ${JSON.stringify(value)}::jsonb)`)
  if (rows.length === 0) return 0
  return db.run(sql`
    INSERT INTO setting (key, value)
    SELECT v.key, v.value FROM (VALUES ${join(rows)}) AS v (key, value) WHERE ${onEverything(scope)}
    ON CONFLICT (key) DO UPDATE SET value = excluded.value`)
}
