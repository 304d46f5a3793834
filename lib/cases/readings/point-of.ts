import type { PointToPlace } from '@/lib/geo'
import type { ReadingRecord } from '@/lib/intake'

/** A few words fill most columns of a file: each is kept once, and none keeps the text of the file alive that it was cut from. */
export class Words {
  private readonly known = new Map<string, string>()

  one(text: string | null): string | undefined {
    if (text === null) return undefined
    const held = this.known.get(text)
    if (held !== undefined) return held
    const own = Buffer.from(text, 'utf8').toString('utf8')
    this.known.set(own, own)
    return own
  }
}

/** A reading as placing sees it; absent fields are left out, because there are many readings. */
export function pointOf(record: ReadingRecord, index: number, survey: string, words: Words): PointToPlace {
  const point: PointToPlace = { index, sigmaM: record.sigmaM ?? 0, positionOf: record.positionOf }
  if (record.lon !== null && record.lat !== null) {
    point.lon = record.lon
    point.lat = record.lat
  }
  point.survey = survey
  if (record.platform) point.platform = record.platform
  if (record.takenAt) point.takenAtMs = record.takenAt.getTime()
  if (record.offsetFromStructureM !== null) point.offsetFromStructureM = record.offsetFromStructureM
  if (record.spanFraction !== null) point.spanFraction = record.spanFraction
  for (const [key, field] of TEXTS) {
    const text = record[field]
    if (text !== null) point[key] = words.one(text)
  }
  return point
}

const TEXTS = [
  ['crew', 'crew'], ['instrument', 'instrument'], ['circuit', 'circuitLabel'], ['section', 'sectionLabel'], ['structureBack', 'structureBack'],
  ['structureAhead', 'structureAhead'], ['phase', 'phase'], ['position', 'position'], ['circuitSide', 'circuitSide'],
  ['subconductor', 'subconductor'], ['spliceLabel', 'spliceLabel'], ['photo', 'photo'],
] as const satisfies readonly (readonly [keyof PointToPlace, keyof ReadingRecord])[]
