import { assess, defaultPolicy, ownNumbersClass, type Evidence, type SpliceFacts } from '@/lib/condition'

const ASSESSMENTS = 400_000
const DAY_MS = 86_400_000
const START_MS = Date.UTC(2020, 5, 1)

/** Small linear congruential generator: the same work in every run. */
let state = 1
const draw = (): number => {
  state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296
  return state / 4_294_967_296
}

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

function rate(name: string, inputs: ReturnType<typeof splice>[], work: (input: ReturnType<typeof splice>) => unknown): void {
  for (const input of inputs) work(input)
  const startedMs = performance.now()
  const startedCpu = process.cpuUsage()
  let sink: unknown
  for (let i = 0; i < ASSESSMENTS; i++) sink = work(inputs[i % inputs.length] ?? splice(1))
  const cpu = process.cpuUsage(startedCpu)
  const wallS = (performance.now() - startedMs) / 1000
  const cpuS = (cpu.user + cpu.system) / 1e6
  const per = (seconds: number) => Math.round(ASSESSMENTS / seconds).toLocaleString('en-US')
  const nothing = sink === undefined ? ' (nothing came back)' : ''
  process.stdout.write(`${name}: ${per(wallS)}/s by the clock, ${per(cpuS)} per CPU second${nothing}\n`)
}

const thousand = (make: () => ReturnType<typeof splice>) => Array.from({ length: 1000 }, make)

const asOfMs = START_MS + 3000 * DAY_MS
for (const surveys of [1, 2, 3]) {
  rate(`assess, ${surveys} resistance ${surveys === 1 ? 'survey' : 'surveys'}, both sides`, thousand(() => splice(surveys)), ({ facts, evidence }) =>
    assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
}
for (const surveys of [0, 1]) {
  rate(`assess, one picture${surveys > 0 ? ' and one resistance survey' : ''}`, thousand(() => flown(surveys)), ({ facts, evidence }) =>
    assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
}
rate('own numbers of one reading', thousand(() => splice(1)), ({ facts, evidence }) => evidence[0] && ownNumbersClass(evidence[0], facts, defaultPolicy))
