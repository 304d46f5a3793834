import type { IfItTrips, TripOfSplice } from '@/lib/contract/if-it-trips'
import { formatDate } from '@/lib/units/time'

export const ASK = {
  supply: 'Not known: ask the system planner.',
  isolation: 'Isolating points not known: ask the control room.',
  called: 'Call list not known: ask the line supervisor.',
} as const

/** Who loses supply: what was noted, else what the lines on file say and whom to ask for the rest. */
export function supplyText({ loses_supply: said, radial, mw }: Pick<TripOfSplice, 'loses_supply' | 'radial' | 'mw'>): string[] {
  const load = mw === null ? '' : radial === true ? `${mw} MW` : `${mw} MW at stake`
  const fed = radial === true ? 'Radial: its load goes with it' : radial === false ? 'Not radial on file' : ''
  const filed = fed === '' && load === '' ? '' : `${[fed === '' ? 'Whether it is radial is not on file' : fed, load].filter((one) => one !== '').join(', ')}.`
  return [said?.replace(/(?<![.!?])$/, '.') ?? (filed === '' ? ASK.supply : 'Whom that leaves without supply is not known: ask the system planner.'), filed].filter((one) => one !== '')
}

/** What isolates it: what was noted, else between which ends to ask for it. */
export function isolationText({ isolated_by: said, from, to }: Pick<TripOfSplice, 'isolated_by' | 'from' | 'to'>): string[] {
  const ends = from !== null && to !== null ? `It runs from ${from} to ${to}.` : ''
  return said === null ? [ASK.isolation, ends].filter((one) => one !== '') : [said.replace(/(?<![.!?])$/, '.')]
}

export const calledLines = ({ called }: Pick<IfItTrips, 'called'>): string[] =>
  (called ?? '').split(/\r?\n/).map((line) => line.trim()).filter((line) => line !== '')

const hoursText = (h: number): string => `${h} h`

/** 'On site in 1.5 h, repair 10 h, handed back within 4 h of recall.'; what of it nobody said is asked of the supervisor. */
export function timesText({ on_site_h: onSiteH, repair_h: repairH, recall_h: recallH }: Pick<IfItTrips, 'on_site_h' | 'repair_h' | 'recall_h'>): string {
  const known = [
    onSiteH === null ? '' : `on site in ${hoursText(onSiteH)}`, repairH === null ? '' : `repair ${hoursText(repairH)}`,
    recallH === null ? '' : `handed back ${hoursText(recallH)} after recall`,
  ].filter((one) => one !== '')
  const missing = [onSiteH === null ? 'how soon there' : '', repairH === null ? 'how long' : '', recallH === null ? 'what recall' : ''].filter((one) => one !== '')
  const ask = missing.length === 0 ? '' : capital(`${missing.join(', ')}: not known, ask the line supervisor.`)
  return [known.length === 0 ? '' : capital(`${known.join(', ')}.`), ask].filter((one) => one !== '').join(' ')
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Who said it and when; empty where nobody has. */
export const notedText = ({ noted_by: by, noted_at: at }: Pick<IfItTrips, 'noted_by' | 'noted_at'>, timeZone: string): string =>
  by === null || at === null ? '' : `Noted ${formatDate(Date.parse(at), timeZone)} by ${by}.`
