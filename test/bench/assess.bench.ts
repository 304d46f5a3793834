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

function rate(name: string, surveys: number, work: (input: ReturnType<typeof splice>) => unknown): void {
  const inputs = Array.from({ length: 1000 }, () => splice(surveys))
  for (const input of inputs) work(input)
  const startedMs = performance.now()
  const startedCpu = process.cpuUsage()
  let sink: unknown
  for (let i = 0; i < ASSESSMENTS; i++) sink = work(inputs[i % inputs.length] ?? splice(surveys))
  const cpu = process.cpuUsage(startedCpu)
  const wallS = (performance.now() - startedMs) / 1000
  const cpuS = (cpu.user + cpu.system) / 1e6
  const per = (seconds: number) => Math.round(ASSESSMENTS / seconds).toLocaleString('en-US')
  const nothing = sink === undefined ? ' (nothing came back)' : ''
  process.stdout.write(`${name}: ${per(wallS)}/s by the clock, ${per(cpuS)} per CPU second${nothing}\n`)
}

const asOfMs = START_MS + 3000 * DAY_MS
for (const surveys of [1, 2, 3]) {
  rate(`assess, ${surveys} resistance ${surveys === 1 ? 'survey' : 'surveys'}, both sides`, surveys, ({ facts, evidence }) =>
    assess({ facts, evidence, policy: defaultPolicy, asOfMs }))
}
rate('own numbers of one reading', 1, ({ facts, evidence }) => evidence[0] && ownNumbersClass(evidence[0], facts, defaultPolicy))
