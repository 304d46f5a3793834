import { describe, expect, it } from 'vitest'
import { policySchema, type InfraredEvidence, type Policy, type SpliceFacts } from '@/lib/condition'
import { contextFor } from '@/lib/condition/context'
import { pictureOf } from '@/lib/condition/infrared-picture'
import { expectPrinted } from '../condition/printed'
import values from './infrared.json'

const FACTS: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', barrelOdMm: 47.6 }
const TAKEN_MS = Date.UTC(2025, 0, 15, 3)
const policyOf = (radiometry: object): Policy => ({ ...policySchema.parse({ radiometry }), version: 0 })

/** Spectra by what a reading notes of its band. */
const BANDS = [['total', undefined], ['lw', 'lw'], ['mw', 'mw']] as const

/** A picture has one reflected temperature; where the camera was set to an emissivity of 1 it reflects nothing, and that is the surface's. */
const ROWS = values.correction.values.filter((row) => row.reflectedSetC === row.reflectedC || Number(row.emissivitySet) === 1)

const seen = (row: (typeof ROWS)[number], band: InfraredEvidence['band']): InfraredEvidence => ({
  source: 'infrared', readingId: 1, takenAtMs: TAKEN_MS, afterRepair: false, spliceTempC: Number(row.apparentC), conductorTempC: Number(row.apparentC),
  referenceKind: 'own-conductor', ambientC: 10, sun: 'none', current30minA: 700, emissivity: Number(row.emissivitySet), reflectedC: Number(row.reflectedC), band,
})

// Computed with an independent reference.
describe.each(ROWS)('a picture, $name: $apparentC °C shown at $emissivitySet', (row) => {
  it.each(BANDS)('of weathered metal has both temperatures right by %s', (spectrum, band) => {
    const picture = pictureOf(seen(row, band), contextFor(FACTS, policyOf({ emissivity: Number(row.emissivity) })), {})
    expectPrinted(picture?.spliceC ?? Number.NaN, row[spectrum])
    expectPrinted(picture?.conductorC ?? Number.NaN, row[spectrum])
  })

  it.each(BANDS)('of a sleeve put up two months before has its own right and leaves its weathered conductor as it was set, by %s', (spectrum, band) => {
    const facts = { ...FACTS, installedAtMs: Date.UTC(2024, 10, 15) }
    const picture = pictureOf(seen(row, band), contextFor(facts, policyOf({ emissivity: Number(row.emissivitySet), newEmissivity: Number(row.emissivity) })), {})
    expectPrinted(picture?.spliceC ?? Number.NaN, row[spectrum])
    expect(picture?.conductorC).toBe(Number(row.apparentC))
  })
})

it('covers the table but for the row whose camera and surface mirror different things', () => {
  expect(ROWS.length).toBe(values.correction.values.length - 1)
})
