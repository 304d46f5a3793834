import { assess, defaultPolicy, ownNumbersClass, type Evidence, type SpliceFacts } from '@/lib/condition'
import { draws, rate, type Say } from './rate'

const ROUNDS = 400
const DAY_MS = 86_400_000
const START_MS = Date.UTC(2020, 5, 1)
const draw = draws()

function splice(surveys: number): { facts: SpliceFacts; evidence: Evidence[] } {
  const evidence: Evidence[] = []
  for (let survey = 0; survey < surveys; survey++) {
    evidence.push({
      source: 'resistance', readingId: survey, takenAtMs: START_MS + survey * 1000 * DAY_MS, survey: `survey ${survey}`, afterRepair: false,
      sideAUohm: 10 + 20 * draw(), sideBUohm: 10 + 20 * draw(), conductorUohm: 21.5 + draw(), electrodeSpanM: 0.3048,
      testCurrent: 'live-ac', lineCurrentA: 400, ambientC: 15, sidesDeclared: true,
    })
  }
  return { facts: { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', ratingA: 900, maxOperatingC: 75 }, evidence }
}

/** A conclusive picture and, of `surveys` other than 0, readings beside it. */
function flown(surveys: number): ReturnType<typeof splice> {
  const { facts, evidence } = splice(surveys)
  evidence.push({
    source: 'infrared', readingId: 'picture', takenAtMs: START_MS + 2900 * DAY_MS, survey: 'flight', afterRepair: false, spliceTempC: 34 + 20 * draw(),
    conductorTempC: 42, referenceKind: 'own-conductor', ambientC: 20, windMS: 1, sun: 'direct', lineCurrentA: 600, current30minA: 600, emissivity: 0.8,
    distanceM: 30, ifovMrad: 0.34, viewAngleDeg: 20,
  })
  return { facts: { ...facts, barrelOdMm: 47.6, latitudeDeg: 40, longitudeDeg: -100, lineAzimuthDeg: 90, expectedPeakA: 850 }, evidence }
}

const thousand = (make: () => ReturnType<typeof splice>) => Array.from({ length: 1000 }, make)

export function assessRates(say: Say): void {
  const asOfMs = START_MS + 3000 * DAY_MS
  const judged = (name: string, inputs: ReturnType<typeof splice>[]) =>
    rate(say, `assess, ${name}`, inputs, ROUNDS, ({ facts, evidence }) => assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
  judged('1 resistance survey, both sides', thousand(() => splice(1)))
  judged('2 resistance surveys, both sides', thousand(() => splice(2)))
  judged('3 resistance surveys, both sides', thousand(() => splice(3)))
  judged('one picture', thousand(() => flown(0)))
  judged('one picture and one resistance survey', thousand(() => flown(1)))
  rate(say, 'own numbers of one reading', thousand(() => splice(1)), ROUNDS, ({ facts, evidence }) => evidence[0] && ownNumbersClass(evidence[0], facts, defaultPolicy))
}
