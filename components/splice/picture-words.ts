import { formatDate } from '@/lib/units/time'
import type { StoredInfrared } from './assessment'

type Picture = Pick<StoredInfrared, 'takenAtMs' | 'hot' | 'inconclusive'>

const listed = (words: readonly string[]): string => (words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`)

/** 'of 24 Apr 2023 and an undated one', each day once, oldest first. */
function daysOf(pictures: readonly Picture[], timeZone: string): string {
  const dated = pictures.flatMap(({ takenAtMs }) => takenAtMs ?? []).sort((a, b) => a - b)
  const days = [...new Set(dated.map((atMs) => formatDate(atMs, timeZone)))]
  return listed(pictures.length > dated.length ? [...days, 'a day nobody noted'] : days)
}

/** Which pictures were hot, and that no cool one takes it back; empty where none was. */
export function hotWords(pictures: readonly Picture[], timeZone: string): string {
  const hot = pictures.filter((picture) => picture.hot)
  return hot.length === 0 ? '' : `Hot on ${daysOf(hot, timeZone)}. A cool picture does not clear it.`
}

/** Which pictures prove nothing; a hot one is not among them, because that it was hot is proved. Empty where there is none. */
export function nothingProvedWords(pictures: readonly Picture[], timeZone: string): string {
  const vain = pictures.filter(({ hot, inconclusive }) => !hot && inconclusive.length > 0)
  if (vain.length === 0) return ''
  return vain.length === 1 ? `The picture of ${daysOf(vain, timeZone)} proves nothing of health.` : `The pictures of ${daysOf(vain, timeZone)} prove nothing of health.`
}
