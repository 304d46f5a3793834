import { ENGINE_VERSION, explain, type Assessment } from '@/lib/condition'
import { ADVICE_CAUTION } from '@/lib/condition/words'
import type { SpliceDetail } from '@/lib/contract/contract'
import { governingOf } from './governing'
import type { UnitSystem } from '@/lib/units/format'

export interface Heat { overConductorK: number; takenAtMs: number | null }

export interface SheetWords {
  headline: string
  reasons: string[]
  /** The picture that raised the class above its ratio. */
  heat: Heat | null
  /** Those of `reasons` that the notes on its pictures say too; that one was hot is not among them. */
  ofPictures: ReadonlySet<string>
  /** What contradicts, what is missing, and which reading would settle it. */
  open: string[]
  /** How each series grows and when it may pass an edge. */
  trends: string[]
  nextActions: string[]
  flags: { code: string; text: string }[]
  caution: string
}

type Place = 'why' | 'open' | 'trend' | 'limit'

/** Reasons that stand in a part of the sheet of their own; 'limit' is drawn from its figures. */
const PLACES: Record<string, Place> = {
  'limit': 'limit', 'limit-of-section': 'limit', 'contingency-over-limit': 'limit', 'trend': 'trend', 'trend-none': 'trend', 'trend-contradicted': 'trend', 'trend-too-short': 'trend',
  'infrared-conflict': 'open', 'infrared-under-one-side': 'open', 'infrared-flights-conflict': 'open', 'settle-infrared-conflict': 'open',
  'infrared-sees-mean': 'open', 'one-side-missing': 'open', 'leg-missing': 'open', 'incomplete': 'open', 'interface-not-proved': 'open',
}

/**
 * The assessment in the reader's own units. One that another version of the engine wrote keeps the words it was sent with, in the
 * utility's units: this page may not know its codes.
 */
export function sheetWords(detail: SpliceDetail, system: UnitSystem, timeZone: string, nowMs: number): SheetWords | null {
  const text = detail.assessment_text
  if (!text) return null
  if (detail.assessment?.engineVersion !== ENGINE_VERSION) {
    return { headline: text.headline, reasons: text.reasons, heat: null, ofPictures: new Set(), open: [], trends: [], nextActions: text.next_actions, flags: text.flags, caution: ADVICE_CAUTION }
  }
  const assessment = detail.assessment as unknown as Assessment
  const words = explain(assessment, {
    unitSystem: system, timeZone, nowMs, shown: {
      class: detail.class, held: detail.held, foundAtMs: detail.found_at === null ? undefined : Date.parse(detail.found_at),
      foundRatio: detail.held ? (detail.ratio ?? undefined) : undefined,
    },
  })
  const placed: Record<Place, string[]> = { why: [], open: [], trend: [], limit: [] }
  const ofPictures = new Set<string>()
  const advised = governingOf(detail)?.kind === 'advised'
  words.reasons.forEach((sentence, i) => {
    const { code, values } = assessment.reasons[i] ?? { code: '', values: {} }
    // Beside a limit in force no flow is held against the advised figure, unless the class itself comes of it.
    if (!advised && code === 'peak-over-limit' && values.raises !== true) return
    // The last one, of strength, stands where it is asked whether the splice will drop.
    if (assessment.reasons[i] === undefined && detail.removed_on === null) return
    placed[PLACES[code] ?? 'why'].push(sentence)
    if (code === 'infrared-inconclusive') ofPictures.add(sentence)
  })
  return { ...words, heat: heatOf(assessment), reasons: placed.why, ofPictures, open: placed.open, trends: placed.trend }
}

function heatOf({ raisedBy, reasons }: Assessment): Heat | null {
  const { overConductorK, takenAtMs = null } = reasons.find(({ code }) => code === 'major-heat' || code === 'probable-heat')?.values ?? {}
  return raisedBy === 'heat' && typeof overConductorK === 'number' ? { overConductorK, takenAtMs: typeof takenAtMs === 'number' ? takenAtMs : null } : null
}
