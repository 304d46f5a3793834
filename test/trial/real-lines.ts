/**
 * A trial on real lines, run by hand: npx tsx test/trial/real-lines.ts LINES.geojson STRUCTURES.geojson
 * Imports both through the product's assembly, then simulates a survey with known truth and prints how it was placed.
 */
import { placeReadings, type Network, type PlacementOutcome } from '@/lib/geo'
import { SpanSearch } from '@/lib/geo/network/search'
import { groupBy } from './group-by'
import { makeDoubleCircuits, type DoubleCircuits } from './double-circuits'
import { seeded } from './random'
import { readNetwork, type TrialNetwork } from './read-network'
import { shuffleTimes, simulateSurvey, type SurveyPlan, type TakenReading } from './survey'

const SEED = 20_240_611
const DOUBLE_LINES = 120

function printNetwork(network: TrialNetwork): void {
  const spans = network.lines.reduce((sum, line) => sum + line.spans.length, 0)
  const attached = network.lines.reduce((sum, line) => sum + line.attached.length, 0)
  const km = network.lines.reduce((sum, line) => sum + line.section.lengthM, 0) / 1000
  print(`${network.features} line features → ${network.lines.length} sections, ${km.toFixed(0)} km, ${spans} spans`)
  print(`${network.structures} structures → ${attached} places on sections`)
  for (const [code, issues] of groupBy(network.issues, (issue) => `${issue.severity} ${issue.code}`)) {
    print(`  ${issues.length} × ${code}: row ${issues[0]!.row}: ${issues[0]!.message}`)
  }
}

interface Score {
  readings: number
  placed: number
  right: number
  rightCircuit: number
  nearestCircuit: number
}

function score(
  network: Network,
  readings: readonly TakenReading[],
  outcomes: readonly PlacementOutcome[],
  isRight: (taken: TakenReading, outcome: PlacementOutcome) => boolean,
): Score {
  const search = new SpanSearch(network)
  const total: Score = { readings: readings.length, placed: 0, right: 0, rightCircuit: 0, nearestCircuit: 0 }
  readings.forEach((taken, i) => {
    const outcome = outcomes[i]!
    search.search(taken.point.lon!, taken.point.lat!, 60)
    if (search.count > 0 && network.sections[search.section[0]!]!.sectionId === taken.truth.sectionId) total.nearestCircuit++
    if (outcome.state !== 'placed') return
    total.placed++
    if (outcome.chosen?.sectionId === taken.truth.sectionId) total.rightCircuit++
    if (isRight(taken, outcome)) total.right++
  })
  return total
}

const percent = (part: number, whole: number): string => `${whole === 0 ? '–' : ((100 * part) / whole).toFixed(2)} %`

function printScore(name: string, result: Score, outcomes: readonly PlacementOutcome[]): void {
  const { readings, placed, right, rightCircuit, nearestCircuit } = result
  print(`${name}: ${readings} readings`)
  const circuitOnly = percent(rightCircuit, placed)
  print(`  of those placed: ${percent(right, placed)} on the right circuit and splice, ${circuitOnly} on the right circuit`)
  const nearest = percent(nearestCircuit, readings)
  print(`  to review: ${percent(readings - placed, readings)}; nearest line alone: ${nearest} on the right circuit`)
  const review = outcomes.filter((outcome) => outcome.state === 'review').map((outcome) => outcome.reasons[0]?.code ?? 'none')
  const codes = [...groupBy(review, (code) => code)].map(([code, all]) => `${code} ${all.length}`)
  if (codes.length > 0) print(`  review: ${codes.join(', ')}`)
}

function run(name: string, world: DoubleCircuits, plan: SurveyPlan, known: boolean): void {
  const random = seeded(SEED + name.length)
  const readings = simulateSurvey(world, plan, random)
  if (plan.order === 'shuffled') shuffleTimes(readings, random)
  const splices = known ? world.splices.flat(2) : []
  const started = performance.now()
  const { outcomes, newSplices } = placeReadings(
    world.network,
    readings.map(({ point }) => point),
    splices,
    [],
  )
  const ms = performance.now() - started
  const isRight = (taken: TakenReading, outcome: PlacementOutcome): boolean =>
    known
      ? outcome.spliceId === taken.truth.spliceId
      : outcome.newSpliceKey !== undefined &&
        outcome.chosen?.sectionId === taken.truth.sectionId &&
        Math.abs(outcome.chosen.lineDistanceM - taken.truth.lineDistanceM) < 23
  printScore(name, score(world.network, readings, outcomes, isRight), outcomes)
  if (!known) print(`  ${newSplices.length} new splices for ${new Set(readings.map(({ truth }) => truth.spliceId)).size} true ones`)
  print(`  ${Math.round((readings.length / ms) * 1000).toLocaleString('en-US')} readings/s`)
}

const print = (line: string): void => {
  process.stdout.write(`${line}\n`)
}

const [linesPath, structuresPath] = process.argv.slice(2)
if (!linesPath || !structuresPath) {
  print('Give the paths: npx tsx test/trial/real-lines.ts LINES.geojson STRUCTURES.geojson')
  process.exitCode = 1
} else {
  const real = readNetwork(linesPath, structuresPath)
  printNetwork(real)
  for (const together of [false, true]) {
    const world = makeDoubleCircuits(real.lines, DOUBLE_LINES, together, seeded(SEED))
    print(together ? '\nSplices of both circuits side by side' : '\nSplices of each circuit for itself')
    run('along one circuit, then the other', world, { order: 'along' }, true)
    run('along, five readings a track', world, { order: 'along', readingsADay: 5 }, true)
    run('times shuffled', world, { order: 'shuffled' }, true)
    run('no times', world, { order: 'untimed' }, true)
    run('both circuits in turn', world, { order: 'in-turn' }, true)
    run('both circuits as they come', world, { order: 'mixed' }, true)
    run('both in turn, the left one named', world, { order: 'in-turn', leftNamed: true }, true)
    run('along, 2 m shared error a day', world, { order: 'along', sharedErrorM: 2 }, true)
    run('along, no splice known before', world, { order: 'along' }, false)
  }
}
