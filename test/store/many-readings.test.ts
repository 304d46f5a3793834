import { beforeAll, expect, it } from 'vitest'
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
