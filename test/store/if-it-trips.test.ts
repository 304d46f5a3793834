import { beforeAll, describe, expect, it } from 'vitest'
import { noteIfItTrips } from '@/lib/cases/note-if-it-trips'
import { circuitDetail } from '@/lib/contract/api'
import { spliceDetail } from '@/lib/contract/contract'
import { ifItTripsBody, type IfItTripsBody } from '@/lib/contract/if-it-trips'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { narrowed } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { storeState } from '@/lib/store/state'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

let circuits: Record<string, number> = {}
let spliceId = 0
const said: IfItTripsBody = {
  loses_supply: 'Mill and 300 customers', isolated_by: 'Switch 7 at Elm', called: 'North desk: 4430\nLine duty: 5130', on_site_h: 1.5, repair_h: 8, recall_h: 3,
  noted_by: 'O. Operator',
}
const trails = () => database().rows<{ actor: string; subject_id: number; detail: { by: string; from: object; to: object } }>(
  sql`SELECT actor, subject_id, detail FROM audit_entry WHERE action = 'trip.noted' ORDER BY id`)

beforeAll(async () => {
  await buildNetwork()
  await importText('lines', linesFile([lineFeature('S1', 5_000, { radial: true, mw: 40 })]), {}, 'lines-again.geojson')
  await report('splices', csv([{ splice_id: 'over', circuit: 'S1', line_distance_m: 450, phase: 'A' }]))
  await report('readings', csv([reading('r', 450, { side_a_uohm: 44, conductor_uohm: 20 })]), { survey: 'Spring' })
  await report('crossings', csv([{ circuit: 'S1', line_distance_m: 500, kind: 'rail', name: 'Branch line' }, { circuit: 'S1', line_distance_m: 4_000, kind: 'road' }]))
  circuits = Object.fromEntries((await listCircuits(scope)).map((one) => [one.name, one.id]))
  spliceId = (await listSplices(scope, { filter: { circuitIds: [circuits.S1 ?? 0] } })).items[0]?.id ?? 0
})

describe('what is noted of a circuit for when it trips', () => {
  it('is not known until somebody says it; what lines and crossings on file say is told beside it', async () => {
    const { if_it_trips: trip } = spliceDetail.parse(await getSplice(scope, spliceId))
    expect(trip).toMatchObject({ loses_supply: null, isolated_by: null, called: null, on_site_h: null, noted_by: null, noted_at: null, radial: true, mw: 40 })
    expect(trip.crossings).toEqual([{ kind: 'rail', name: 'Branch line', line_distance_m: 500 }]) // the road is in another span
    expect(circuitDetail.parse(await getCircuit(scope, circuits.S1 ?? 0)).if_it_trips.loses_supply).toBeNull()
  })

  it('stands on the sheets of its circuit and splices once a named person said it, and a later word takes the place of an earlier one', async () => {
    const before = await storeState(scope)
    expect(await noteIfItTrips(scope, circuits.S1 ?? 0, said, 'tester')).toMatchObject({ ok: true, value: said })
    expect(spliceDetail.parse(await getSplice(scope, spliceId)).if_it_trips).toMatchObject(said)
    expect((await storeState(scope)).data_version).toBeGreaterThan(before.data_version)
    await noteIfItTrips(scope, circuits.S1 ?? 0, { ...said, called: null, noted_by: 'P. Operator' }, 'tester')
    expect((await getCircuit(scope, circuits.S1 ?? 0))?.if_it_trips).toMatchObject({ called: null, loses_supply: said.loses_supply, noted_by: 'P. Operator' })
    expect((await getCircuit(scope, circuits.L1 ?? 0))?.if_it_trips).toMatchObject({ loses_supply: null, noted_by: null })
  })

  it('leaves who said what, and what stood there before, in the trail', async () => {
    const trail = await trails()
    expect(trail).toHaveLength(2)
    expect(trail[1]).toMatchObject({ actor: 'tester', subject_id: circuits.S1, detail: { by: 'P. Operator', from: { called: said.called }, to: { called: null } } })
  })

  it('is gone where nothing of it is known any more', async () => {
    const nothing = { loses_supply: null, isolated_by: null, called: null, on_site_h: null, repair_h: null, recall_h: null, noted_by: 'P. Operator' }
    expect(await noteIfItTrips(scope, circuits.S1 ?? 0, nothing, 'tester')).toMatchObject({ ok: true, value: { loses_supply: null, noted_by: null } })
    expect(await database().rows(sql`SELECT FROM if_it_trips`)).toHaveLength(0)
  })

  it('is not for those who do not see the circuit', async () => {
    const other = narrowed(scope, [circuits.L1 ?? 0])
    expect(await noteIfItTrips(other, circuits.S1 ?? 0, said, 'tester')).toMatchObject({ ok: false, error: { code: 'not-found' } })
    expect(await noteIfItTrips(scope, 999_999, said, 'tester')).toMatchObject({ ok: false, error: { code: 'not-found' } })
    expect(await database().rows(sql`SELECT FROM if_it_trips`)).toHaveLength(0)
  })

  it('takes no empty words and no hours that cannot be, by the API and in the database', async () => {
    for (const wrong of [{ called: ' ' }, { on_site_h: -1 }, { repair_h: 0 }, { recall_h: 400 }, { loses_supply: 'x'.repeat(301) }, { noted_by: '' }]) {
      expect(ifItTripsBody.safeParse({ ...said, ...wrong }).success, JSON.stringify(wrong)).toBe(false)
    }
    const put = (column: string, value: string) => database().run(sql`
      INSERT INTO if_it_trips SELECT * FROM jsonb_populate_record(NULL::if_it_trips, jsonb_build_object('circuit_id', ${circuits.S1}::int, 'noted_by', 'O. Operator', 'noted_at', now(),
        'isolated_by', 'Switch 7') || jsonb_build_object(${column}::text, ${value}::jsonb))`)
    await expect(put('called', '"  "')).rejects.toThrow(/if_it_trips_texts_given/)
    await expect(put('loses_supply', JSON.stringify('x'.repeat(301)))).rejects.toThrow(/if_it_trips_texts_short/)
    await expect(put('on_site_h', '-1')).rejects.toThrow(/if_it_trips_hours/)
    await expect(put('repair_h', '0')).rejects.toThrow(/if_it_trips_hours/)
    await expect(put('isolated_by', 'null')).rejects.toThrow(/if_it_trips_says_something/)
  })
})
