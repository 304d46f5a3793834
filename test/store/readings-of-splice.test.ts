import { beforeAll, expect, it } from 'vitest'
import { reading as readingSchema } from '@/lib/contract/contract'
import { getReading, readingsOfImport } from '@/lib/store/readings'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

it('a splice with more readings than a sheet holds shows the newest, and counts all', async () => {
  const at = (hour: number) => new Date(Date.UTC(2026, 0, 1, hour)).toISOString()
  const order = Array.from({ length: 520 }, (_, i) => (i * 7) % 520) // not in the order of their times
  await report('readings', csv(order.map((hour) => reading(`h${hour}`, 450, { taken_at: at(hour) }))), { survey: 'Monitor' })
  const [splice] = (await listSplices(scope)).items
  const detail = await getSplice(scope, splice?.id ?? 0)
  expect(detail?.reading_count).toBe(520)
  expect(detail?.readings.map((one) => one.reading_id)).toEqual(Array.from({ length: 500 }, (_, i) => `h${519 - i}`))
})

it('one reading that is asked for has its raw row under the names of its own file', async () => {
  const text = 'Rdg;Date time;Ckt;From str;R side A (mOhm);R side B (mOhm);R conductor (mOhm);Crew remark\r\nQ-1;2026-03-01 10:00Z;L1;1;0,0096;0,0104;0,0213;"wind; gusty"\r\n'
  const r = await report('readings', text, { survey: 'Headers' }, 'headers.csv')
  const [one] = (await readingsOfImport(scope, r.import_id)).items
  expect(one?.raw_cells).toBeUndefined()
  const found = readingSchema.parse(await getReading(scope, one?.id ?? 0))
  expect(found.raw_cells).toEqual([
    ['Rdg', 'Q-1'], ['Date time', '2026-03-01 10:00Z'], ['Ckt', 'L1'], ['From str', '1'], ['R side A (mOhm)', '0,0096'], ['R side B (mOhm)', '0,0104'], ['R conductor (mOhm)', '0,0213'], ['Crew remark', 'wind; gusty'],
  ].map(([column, cell]) => ({ column, cell })))
})
