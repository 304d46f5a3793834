import type { InfraredNote } from './types'

type Criterion = InfraredNote['criteria'][number]

/** Read in a copy of the ATS-2003 appendix; the MTS edition is remembered to print the same. */
const SOURCE = 'ANSI/NETA ATS-2003, Table 100.18'

/** The table begins at one degree: under it nothing is read. */
export const CRITERIA_FROM_K = 1

interface Row {
  /** Upper end of the band in K, which belongs to it; the table prints whole degrees with gaps between, which are closed upwards. */
  upToK: number | null
  action: string
}

const SIMILAR: readonly Row[] = [
  { upToK: 3, action: 'Possible deficiency; warrants investigation.' },
  { upToK: 15, action: 'Indicates probable deficiency; repair as time permits.' },
  { upToK: null, action: 'Major discrepancy; repair immediately.' },
]

/** 'Monitor' stands above 'repair as time permits' here: the order of the rows is no order of urgency. */
const OVER_AIR: readonly Row[] = [
  { upToK: 10, action: 'Possible deficiency; warrants investigation.' },
  { upToK: 20, action: 'Indicates probable deficiency; repair as time permits.' },
  { upToK: 40, action: 'Monitor until corrective measures can be accomplished.' },
  { upToK: null, action: 'Major discrepancy; repair immediately.' },
]

function criterion(column: Criterion['column'], rows: readonly Row[], differenceK: number | undefined): Criterion[] {
  if (differenceK === undefined || !(differenceK >= CRITERIA_FROM_K)) return []
  const at = rows.findIndex(({ upToK }) => upToK === null || differenceK <= upToK)
  const row = rows[at]
  return row ? [{ column, fromK: rows[at - 1]?.upToK ?? CRITERIA_FROM_K, upToK: row.upToK, action: row.action, source: SOURCE }] : []
}

/**
 * The published criteria for a temperature difference, as a secondary note. They were made for switchgear and not for
 * splices: a sound conductor at full load stands 30 to 50 K over the air, and a splice as warm as its conductor already
 * has a ratio near 1.3. From 1 K up; none for less.
 * @param overReferenceK splice over a similar component, K
 * @param overAmbientK splice over the air, K
 */
export const publishedCriteria = (overReferenceK: number | undefined, overAmbientK: number | undefined): Criterion[] => [
  ...criterion('similar component', SIMILAR, overReferenceK),
  ...criterion('ambient air', OVER_AIR, overAmbientK),
]
