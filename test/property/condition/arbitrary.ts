import fc from 'fast-check'
import { FINDINGS, SPLICE_KINDS, type Evidence, type InfraredEvidence, type ResistanceEvidence, type SpliceFacts,
  type VisualEvidence } from '@/lib/condition'

export const NOW_MS = Date.UTC(2026, 8, 1)
const YEAR_MS = 365.25 * 86_400_000

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true })
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined })

const base = {
  readingId: fc.nat(1_000_000),
  takenAtMs: maybe(fc.integer({ min: NOW_MS - 30 * YEAR_MS, max: NOW_MS + YEAR_MS })),
  survey: maybe(fc.constantFrom('S1', 'S2', 'S3')),
  instrument: maybe(fc.constantFrom('I-1', 'I-2')),
  afterRepair: fc.boolean(),
}

/** Any reading within the ranges of the instrument, and however odd otherwise. */
export const resistance: fc.Arbitrary<ResistanceEvidence> = fc.record({
  ...base, source: fc.constant('resistance' as const),
  sideAUohm: maybe(number(0.5, 50_000)), sideBUohm: maybe(number(0.5, 50_000)),
  conductorUohm: maybe(number(0.5, 50_000)), conductorBUohm: maybe(number(0.5, 50_000)),
  electrodeSpanM: maybe(number(0.05, 1)), conductorSpanM: maybe(number(0.05, 1)), barrelElectrodeM: maybe(number(-0.1, 0.5)),
  testCurrent: maybe(fc.constantFrom('live-ac' as const, 'dead-dc' as const)), lineCurrentA: maybe(number(0, 3000)),
  conductorTempC: maybe(number(-50, 200)), ambientC: maybe(number(-50, 60)), sidesDeclared: fc.boolean(),
})

export const infrared: fc.Arbitrary<InfraredEvidence> = fc.record({
  ...base, source: fc.constant('infrared' as const),
  spliceTempC: maybe(number(-50, 400)), conductorTempC: maybe(number(-50, 400)), ambientC: maybe(number(-50, 60)),
    windMS: maybe(number(0, 30)),
  referenceKind: maybe(fc.constantFrom('own-conductor' as const, 'same-fitting' as const, 'air' as const)),
  lineCurrentA: maybe(number(0, 3000)), current30minA: maybe(number(0, 3000)), emissivity: maybe(number(0, 1)), reflectedC: maybe(number(-120, 400)),
  band: maybe(fc.constantFrom('lw' as const, 'mw' as const)),
    distanceM: maybe(number(0, 200)),
  ifovMrad: maybe(number(0, 5)), viewAngleDeg: maybe(number(0, 90)), rain1h: maybe(fc.boolean()),
  sun: maybe(fc.constantFrom('none' as const, 'diffuse' as const, 'direct' as const)),
})

export const visual: fc.Arbitrary<VisualEvidence> = fc.record({
  ...base, source: fc.constant('visual' as const), findings: fc.array(fc.constantFrom(...FINDINGS), { maxLength: 4 }),
})

export const evidence: fc.Arbitrary<Evidence[]> = fc.array(fc.oneof(resistance, resistance, infrared, visual), { maxLength: 8 })

export const facts: fc.Arbitrary<SpliceFacts> = fc.record({
  kind: fc.constantFrom(...SPLICE_KINDS), subconductors: fc.integer({ min: 1, max: 4 }),
  fittingType: maybe(fc.constantFrom('two-stage', 'automatic')), barrelOdMm: maybe(number(5, 80)),
  conductorCode: maybe(fc.constantFrom('Drake', 'Penguin', 'Bobolink', '24-AL1', 'Nobody')),
  ratingA: maybe(number(50, 3000)), maxOperatingC: maybe(number(50, 250)),
  installedAtMs: maybe(fc.integer({ min: NOW_MS - 40 * YEAR_MS, max: NOW_MS + YEAR_MS })), surfaceEmissivity: maybe(number(0.15, 1)),
})
