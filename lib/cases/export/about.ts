import { ADVICE_CAUTION } from '@/lib/condition/words'
import type { Scope } from '@/lib/store/scope'
import { getSettings } from '@/lib/store/settings'
import { localText } from '@/lib/units/local-text'
import { formatDateTime } from '@/lib/units/time'

/** What every file says of itself. */
export interface AboutExport {
  /** ISO 8601, UTC: as the file was begun. */
  asOf: string
  /** The same in the utility's zone, with the zone. */
  asOfText: string
  /** 'YYYY-MM-DD' there. */
  day: string
  utility: string
  /** How the file is to be handled. */
  mark: string
  caution: string
}

export async function aboutExport(scope: Scope, nowMs: number): Promise<AboutExport> {
  const { time_zone: timeZone, utility_name: utility, information_mark: mark, unit_system: system } = await getSettings(scope)
  return {
    asOf: new Date(nowMs).toISOString(),
    asOfText: formatDateTime(nowMs, timeZone),
    day: new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(nowMs), // Swedes write days so
    utility,
    mark: mark.trim() || 'No information-handling mark is set',
    caution: localText(ADVICE_CAUTION, system),
  }
}

/** The mark, as of when, whose, and the caution, in one text. */
export const aboutText = ({ mark, asOfText, utility, caution }: AboutExport): string =>
  [`${mark}.`, `As of ${asOfText}.`, utility && `${utility}.`, caution].filter(Boolean).map((sentence) => sentence.replace(/\.\.$/, '.')).join(' ')
