/** A structure that carries two lines, with its line distance on each, m from the section's named end. */
export interface SharedStructure {
  sectionId: number
  lineDistanceM: number
  besideSectionId: number
  besideLineDistanceM: number
}

/** A stretch on which two lines hang side by side, between two structures that carry both. */
export interface SharedStretch {
  sectionId: number
  fromM: number
  toM: number
  besideSectionId: number
  /** Line distance on the other line at `fromM` and `toM`; falls where the other line is counted the other way. */
  besideFromM: number
  besideToM: number
}

/** Two lines on the same structures are as long between them, but for how each is drawn and measured. */
const UNLIKE_SHARE = 0.2
const UNLIKE_M = 30

/**
 * Where another line hangs beside this one: between neighbours among the structures that carry both, as far as both lines are as long there.
 * A structure at which lines only cross makes no stretch. @param shared in any order
 */
export function sharedStretches(shared: readonly SharedStructure[]): SharedStretch[] {
  const sorted = [...shared].sort((a, b) => a.sectionId - b.sectionId || a.besideSectionId - b.besideSectionId || a.lineDistanceM - b.lineDistanceM)
  return sorted.flatMap((to, i) => {
    const from = sorted[i - 1]
    if (!from || from.sectionId !== to.sectionId || from.besideSectionId !== to.besideSectionId) return []
    const lengthM = to.lineDistanceM - from.lineDistanceM
    const besideM = Math.abs(to.besideLineDistanceM - from.besideLineDistanceM)
    if (lengthM <= 0 || Math.abs(lengthM - besideM) > UNLIKE_SHARE * Math.max(lengthM, besideM) + UNLIKE_M) return []
    return [{
      sectionId: to.sectionId, fromM: from.lineDistanceM, toM: to.lineDistanceM, besideSectionId: to.besideSectionId,
      besideFromM: from.besideLineDistanceM, besideToM: to.besideLineDistanceM,
    }]
  })
}

/** Which place of this line is abreast of a place of the other, by shares of the stretch; null where it is on none. */
export function abreastOf(stretches: readonly SharedStretch[], besideSectionId: number, besideLineDistanceM: number): { sectionId: number; lineDistanceM: number } | null {
  for (const stretch of stretches) {
    const share = (besideLineDistanceM - stretch.besideFromM) / (stretch.besideToM - stretch.besideFromM)
    if (stretch.besideSectionId !== besideSectionId || !(share >= 0 && share <= 1)) continue
    return { sectionId: stretch.sectionId, lineDistanceM: stretch.fromM + share * (stretch.toM - stretch.fromM) }
  }
  return null
}
