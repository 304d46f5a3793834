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
  /** Whom the file is for, and what for, as was asked. */
  recipient: string
  /** Urgent and critical splices that its filter and box leave out. */
  leftOut: { urgent: number; critical: number }
  /** 'https://host', of the address that was asked: where sheets are. */
  origin: string
  timeZone: string
  caution: string
}

/** What the file's address says of it beside its filter. */
export type Asked = Pick<AboutExport, 'origin' | 'leftOut'> & { recipient?: string }

export async function aboutExport(scope: Scope, nowMs: number, { origin, leftOut, recipient = '' }: Asked): Promise<AboutExport> {
  const { time_zone: timeZone, utility_name: utility, information_mark: mark, unit_system: system } = await getSettings(scope)
  return {
    asOf: new Date(nowMs).toISOString(),
    asOfText: formatDateTime(nowMs, timeZone),
    day: new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(nowMs), // Swedes write days so
    utility,
    origin, leftOut, timeZone,
    recipient: recipient.trim() || 'No recipient is named',
    mark: mark.trim() || 'No information-handling mark is set',
    caution: localText(ADVICE_CAUTION, system),
  }
}

/** '2 critical and 5 urgent splices are left out by the filter', or that none are. */
const leftOutText = ({ critical, urgent }: AboutExport['leftOut']): string =>
  (critical + urgent === 0 ? 'The filter leaves out nothing urgent or critical' : `The filter leaves out ${[critical > 0 && `${critical} critical`, urgent > 0 && `${urgent} urgent`].filter(Boolean).join(' and ')}`)

/** The mark, for whom, as of when, what is left out, whose, and the caution, in one text. */
export const aboutText = ({ mark, recipient, asOfText, leftOut, utility, caution }: AboutExport): string =>
  [`${mark}.`, `Recipient: ${recipient}.`, `As of ${asOfText}.`, `${leftOutText(leftOut)}.`, utility && `${utility}.`, caution].filter(Boolean).map((sentence) => sentence.replace(/\.\.$/, '.')).join(' ')
