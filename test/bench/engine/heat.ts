import { conductorByCode, defaultPolicy, type InfraredEvidence } from '@/lib/condition'
import { bodiesOf } from '@/lib/condition/body-of-splice'
import { contextFor } from '@/lib/condition/context'
import { currentLimit, limitFactsOf } from '@/lib/condition/current-limit'
import { computedEdgesFor } from '@/lib/condition/edges-computed'
import { steadyTemperature } from '@/lib/condition/heat/balance'
import { jointTemperature } from '@/lib/condition/heat/joint'
import { infraredVerdict } from '@/lib/condition/infrared-k'
import { draws, number, rate, type Say } from './rate'

const JOINTS = 2000
const FRAME_MS = 16

const drawn = draws()
const draw = (from: number, to: number): number => from + (to - from) * drawn()

const CODES = ['Raven', 'Penguin', 'Linnet', 'Hawk', 'Drake', 'Cardinal', 'Bittern', 'Bluebird']
const splices = Array.from({ length: JOINTS }, (_, i) => {
  const code = CODES[i % CODES.length] ?? 'Drake'
  const facts = { kind: 'full-tension splice' as const, subconductors: 1, conductorCode: code, ratingA: conductorByCode(code)?.ampacityA ?? 500 }
  const context = contextFor(facts, defaultPolicy)
  const bodies = bodiesOf(context, 0.7, 0.7)
  if (!bodies) throw new Error(`${code} is missing`)
  return { context, bodies, k: Math.exp(draw(Math.log(0.3), Math.log(4))), loadShare: draw(0.2, 1.1), ratingA: facts.ratingA }
})

const weatherOf = (round: number) =>
  ({ ambientC: 15 + (round % 30), windMS: 0.3 + (round % 17) / 5, windAngleDeg: 90, sunWPerM2: 600, elevationM: 300 })

/** A slider is dragged: all joints of the screen for each new weather, the slowest frame of the middle 98 %. */
function frames(say: Say): void {
  const tookMs: number[] = []
  let steady = 0
  for (let frame = 0; frame < 400; frame++) {
    const weather = weatherOf(frame)
    const startedMs = performance.now()
    for (const { bodies, k, loadShare, ratingA } of splices) {
      const found = jointTemperature(bodies.conductor, bodies.barrel, k, loadShare * ratingA, weather)
      if (found.ok && found.value.kind === 'steady') steady++
    }
    tookMs.push(performance.now() - startedMs)
  }
  const sorted = tookMs.sort((a, b) => a - b)
  const at = (share: number) => (sorted[Math.floor(share * sorted.length)] ?? NaN).toFixed(2)
  say(`${number(JOINTS)} joints a frame of ${FRAME_MS} ms: ${at(0.5)} ms in the middle, ${at(0.95)} ms for 95 % of frames; `
    + `${((100 * steady) / (400 * JOINTS)).toFixed(1)} % at rest, the others run away`)
}

/** As the splice would show in 1 m/s at 70 % load. */
function pictureOf({ bodies, k, ratingA }: (typeof splices)[number]): InfraredEvidence {
  const currentA = 0.7 * ratingA
  const weather = { ambientC: 20, windMS: 1, windAngleDeg: 90, sunWPerM2: 0, elevationM: 0 }
  const degrees = (found: ReturnType<typeof jointTemperature>) => (found.ok && found.value.kind === 'steady' ? found.value.temperatureC : undefined)
  return {
    source: 'infrared', readingId: 1, afterRepair: false, ambientC: 20, sun: 'none', emissivity: 0.7, current30minA: currentA, windMS: 1,
    referenceKind: 'own-conductor', conductorTempC: degrees(steadyTemperature(bodies.conductor, currentA, weather)),
    spliceTempC: degrees(jointTemperature(bodies.conductor, bodies.barrel, k, currentA, weather)),
  }
}
const pictures = new Map(splices.map((splice) => [splice, pictureOf(splice)]))

export function heatRates(say: Say): void {
  frames(say)
  rate(say, 'joint temperatures', splices, 200, ({ bodies, k, loadShare, ratingA }, round) =>
    jointTemperature(bodies.conductor, bodies.barrel, k, loadShare * ratingA, weatherOf(round)))
  rate(say, 'k by infrared, with its error and what would have shown', splices, 20, (splice) => {
    const picture = pictures.get(splice)
    return picture && infraredVerdict(picture, splice.context)
  })
  rate(say, 'current limits', splices, 100, ({ context, k }) => {
    const facts = limitFactsOf(context, 230)
    return facts.ok ? currentLimit(facts.value, k, defaultPolicy) : undefined
  })
  rate(say, 'class edges computed for 90 °C', splices, 100, ({ context }) => computedEdgesFor(context, 90))
}
