import type { InfraredNote } from './types'

type Criterion = InfraredNote['criteria'][number]

/** Read in a copy of the ATS-2003 appendix; the MTS edition is remembered to print the same. */
const SOURCE = 'ANSI/NETA ATS-2003, Table 100.18'

interface Row {
  /** Upper end of the band in K, which belongs to it; the table prints whole degrees with gaps between. */
  upToK: number
  band: string
  action: string
}

const SIMILAR: readonly Row[] = [
  { upToK: 3, band: '1–3 °C', action: 'Possible deficiency; warrants investigation.' },
  { upToK: 15, band: '4–15 °C', action: 'Indicates probable deficiency; repair as time permits.' },
  { upToK: Infinity, band: 'over 15 °C', action: 'Major discrepancy; repair immediately.' },
]

/** 'Monitor' stands above 'repair as time permits' here: the order of the rows is no order of urgency. */
const OVER_AIR: readonly Row[] = [
  { upToK: 10, band: '1–10 °C', action: 'Possible deficiency; warrants investigation.' },
  { upToK: 20, band: '11–20 °C', action: 'Indicates probable deficiency; repair as time permits.' },
  { upToK: 40, band: '21–40 °C', action: 'Monitor until corrective measures can be accomplished.' },
  { upToK: Infinity, band: 'over 40 °C', action: 'Major discrepancy; repair immediately.' },
]

function criterion(column: Criterion['column'], rows: readonly Row[], differenceK: number | undefined): Criterion[] {
  if (differenceK === undefined || !(differenceK > 0)) return []
  const row = rows.find(({ upToK }) => differenceK <= upToK)
  return row ? [{ column, band: row.band, action: row.action, source: SOURCE }] : []
}

/**
 * The published criteria for a temperature difference, as a secondary note. They were made for switchgear and not for
 * splices: a sound conductor at full load stands 30 to 50 K over the air, and a splice as warm as its conductor already
 * has a ratio near 1.3.
 * @param overReferenceK splice over a similar component, K
 * @param overAmbientK splice over the air, K
 */
export const publishedCriteria = (overReferenceK: number | undefined, overAmbientK: number | undefined): Criterion[] => [
  ...criterion('similar component', SIMILAR, overReferenceK),
  ...criterion('ambient air', OVER_AIR, overAmbientK),
]
