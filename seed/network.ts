import { CIRCUITS, RAILWAYS, ROADS, SUBSTATIONS, TAP, WATERWAYS, type CircuitPlan } from './landscape'
import { metresBetween, moveTowards, type Place } from './ground'
import { Random } from './random'

export interface BuiltStructure { label: string; lon: number; lat: number; structureType: string; stationM: number }

export interface BuiltSection {
  plan: CircuitPlan
  section: string
  from: string
  to: string
  conductor: string
  ratingA: number
  ratingEmergencyA: number
  structures: BuiltStructure[]
}

const MILE_M = 1609.344

/** Angle points every few kilometres: no real line runs straight between two towns. */
function anglePoints(waypoints: Place[], random: Random): Place[] {
  const path: Place[] = [waypoints[0] as Place]
  for (let i = 1; i < waypoints.length; i++) {
    const from = waypoints[i - 1] as Place
    const to = waypoints[i] as Place
    const lengthM = metresBetween(from, to)
    const legs = Math.max(1, Math.round(lengthM / random.between(3500, 6500)))
    for (let leg = 1; leg < legs; leg++) {
      const share = leg / legs + random.between(-0.15, 0.15) / legs
      const aside = random.normal(0, 0.055) * Math.min(lengthM, 12_000)
      path.push(moveTowards(from, to, share * lengthM, aside))
    }
    path.push(to)
  }
  return path
}

function label(plan: CircuitPlan, ord: number, stationM: number, seen: Map<number, number>): string {
  if (plan.numbering === 'running') return String(ord + 1).padStart(3, '0')
  const mile = Math.floor(stationM / MILE_M) + 1
  const inMile = (seen.get(mile) ?? 0) + 1
  seen.set(mile, inMile)
  return `${mile}/${inMile}`
}

function standStructures(plan: CircuitPlan, path: Place[], random: Random): BuiltStructure[] {
  const out: BuiltStructure[] = []
  const perMile = new Map<number, number>()
  let stationM = 0
  const stand = (lon: number, lat: number, atM: number, structureType: string) => {
    out.push({ label: label(plan, out.length, atM, perMile), lon, lat, structureType, stationM: atM })
  }
  for (let i = 1; i < path.length; i++) {
    const from = path[i - 1] as Place
    const to = path[i] as Place
    const legM = metresBetween(from, to)
    const spans = Math.max(1, Math.round(legM / random.between(...plan.spanM)))
    const weights = Array.from({ length: spans }, () => random.between(0.8, 1.2))
    const total = weights.reduce((a, b) => a + b, 0)
    let doneM = 0
    for (let s = 0; s < spans; s++) {
      const [lon, lat] = moveTowards(from, to, doneM, 0)
      stand(lon, lat, stationM + doneM, s === 0 ? 'dead-end' : 'tangent')
      doneM += ((weights[s] as number) / total) * legM
    }
    stationM += legM
  }
  const last = path[path.length - 1] as Place
  stand(last[0], last[1], stationM, 'dead-end')
  return out
}

/** Someone added a structure years later: '045A' between '045' and '046'. */
function insertLateStructure(structures: BuiltStructure[], at: number): void {
  const back = structures[at]
  const ahead = structures[at + 1]
  if (!back || !ahead) return
  const stationM = (back.stationM + ahead.stationM) / 2
  const [lon, lat] = moveTowards([back.lon, back.lat], [ahead.lon, ahead.lat], stationM - back.stationM, 0)
  structures.splice(at + 1, 0, { label: `${back.label}A`, lon, lat, structureType: 'tangent', stationM })
}

export function buildNetwork(): BuiltSection[] {
  const sections: BuiltSection[] = []
  for (const [n, plan] of CIRCUITS.entries()) {
    const host = plan.sharesWith ? sections.find((s) => s.plan.circuit === plan.sharesWith) : undefined
    const random = new Random(4100 + n)
    const path = anglePoints([SUBSTATIONS[plan.from], ...plan.via, SUBSTATIONS[plan.to]], random)
    const structures = host ? host.structures : standStructures(plan, path, random)
    if (!host && plan.numbering === 'running') insertLateStructure(structures, 44 + n)
    sections.push({
      plan, section: 'main', from: plan.from, to: plan.to, conductor: plan.conductor,
      ratingA: plan.ratingA, ratingEmergencyA: plan.ratingEmergencyA, structures,
    })
  }
  const parent = sections.find((s) => s.plan.circuit === TAP.circuit) as BuiltSection
  const tapAt = parent.structures[Math.round(parent.structures.length * 0.72)] as BuiltStructure
  const random = new Random(4190)
  const path = anglePoints([[tapAt.lon, tapAt.lat], SUBSTATIONS[TAP.to]], random)
  const structures = standStructures({ ...parent.plan, numbering: 'running' }, path, random)
    .map((s, i) => ({ ...s, label: i === 0 ? tapAt.label : `T${i}` }))
  sections.push({
    plan: parent.plan, section: TAP.section, from: `STR ${tapAt.label}`, to: TAP.to, conductor: TAP.conductor,
    ratingA: TAP.ratingA, ratingEmergencyA: TAP.ratingEmergencyA, structures,
  })
  return sections
}

export interface BuiltCrossing { circuit: string; lineDistanceM: number; kind: string; name: string }

export function buildCrossings(sections: BuiltSection[]): BuiltCrossing[] {
  const random = new Random(4300)
  const out: BuiltCrossing[] = []
  for (const { plan, section, structures } of sections) {
    if (section !== 'main' || plan.sharesWith) continue
    const lengthM = structures[structures.length - 1]?.stationM ?? 0
    for (let stationM = random.between(2000, 6000); stationM < lengthM - 1500; stationM += random.between(5000, 14_000)) {
      const roll = random.next()
      const [kind, name] = roll < 0.5 ? ['river', random.pick(WATERWAYS)] as const
        : roll < 0.9 ? ['road', random.pick(ROADS)] as const : ['rail', random.pick(RAILWAYS)] as const
      const at = { lineDistanceM: Math.round(stationM), kind, name }
      for (const s of sections) if (s.section === 'main' && (s.plan === plan || s.plan.sharesWith === plan.circuit)) out.push({ circuit: s.plan.circuit, ...at })
    }
  }
  return out
}
