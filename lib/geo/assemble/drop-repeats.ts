import { structureKey } from '../network/labels'
import type { GeoIssue } from '../types'
import type { AttachedStructure, SectionLine, StructurePoint } from './attach-structures'
import { error, metresWords, sectionWords, warning } from './line-feature'

/** Two structures closer than this along a line are one. */
const SAME_PLACE_M = 0.5
const SAME_STRUCTURE_M = 25

/** One place per name and one name per place on a section; what repeats is named. Result is ordered by section and line distance. */
export function dropRepeats<S extends StructurePoint>(
  sections: readonly SectionLine[], attached: readonly AttachedStructure<S>[], issues: GeoIssue[],
): AttachedStructure<S>[] {
  const kept: AttachedStructure<S>[] = []
  const byName = new Map<string, AttachedStructure<S>>()
  for (const one of attached) {
    const key = `${one.section} ${structureKey(one.structure.structure)}`
    const twin = byName.get(key)
    if (!twin) {
      byName.set(key, one)
      kept.push(one)
      continue
    }
    const line = sections[one.section]!
    issues.push(repeated(one, Math.abs(one.lineDistanceM - twin.lineDistanceM), sectionWords(line.circuit, line.section)))
  }
  kept.sort((a, b) => a.section - b.section || a.lineDistanceM - b.lineDistanceM || a.structure.rowNo - b.structure.rowNo)
  return kept.filter((one, i) => {
    const before = kept[i - 1]
    if (!before || before.section !== one.section || one.lineDistanceM - before.lineDistanceM >= SAME_PLACE_M) return true
    const line = sections[one.section]!
    const where = sectionWords(line.circuit, line.section)
    issues.push(warning(one.structure.rowNo, 'structures-same-place',
      `Structures ${before.structure.structure} and ${one.structure.structure} stand at the same place on ${where}.`,
      'Give the second name as an alias of the first.', { field: 'structure', value: one.structure.structure }))
    return false
  })
}

function repeated({ structure }: AttachedStructure, apartM: number, where: string): GeoIssue {
  const more = { field: 'structure', value: structure.structure }
  const name = `Structure ${structure.structure} of ${where}`
  return apartM <= SAME_STRUCTURE_M
    ? warning(structure.rowNo, 'structure-twice', `${name} is given twice.`, 'The first row counts.', more)
    : error(structure.rowNo, 'structure-name-twice', `${name} is given again ${metresWords(apartM)} away.`,
      'Give each structure of a section a name of its own.', more)
}
