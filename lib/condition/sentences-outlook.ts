import { formatTimesIn } from '@/lib/units/format'
import type { ReasonReader, Sentence } from './reason-reader'
import { LIMIT_CAUTION } from './words'

function trend(r: ReasonReader): string {
  const growth = `${r.share('perYear')} a year over ${r.count('count')} readings`
  const edge = r.has('class') ? passing(r) : ''
  const notes = [
    r.is('usual', true) ? 'so few or so close together, they are weighed against the usual growth' : '',
    r.is('wide', true) ? 'with three readings the earliest day is very cautious' : '',
    r.is('accelerating', true) ? 'each step was steeper than the one before' : '',
  ].filter((note) => note !== '')
  return `${seriesName(r)} grows by ${growth}${edge}.${notes.length > 0 ? ` ${capital(notes.join('; '))}.` : ''}`
}

function passing(r: ReasonReader): string {
  const edge = `${r.plainRatio('edge')} (${r.word('class')})`
  if (r.number('earliestAtMs') <= r.number('lastAtMs')) {
    return `; it may be past ${edge} already${r.number('medianAtMs') > r.number('lastAtMs') ? `, and most likely passes it${r.aboutDate('medianAtMs', 'lastAtMs')}` : ''}`
  }
  return `; at the earliest it passes ${edge}${r.aboutDate('earliestAtMs', 'lastAtMs')}, most likely${r.aboutDate('medianAtMs', 'lastAtMs')}`
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function seriesName(r: ReasonReader): string {
  if (r.is('series', 'infrared')) return 'The ratio by infrared'
  return r.word('name').startsWith('side') ? `The ratio of side ${r.word('series')}` : `The ratio of ${r.word('name')}`
}

/** How ratios have grown, and what a splice may carry. */
export const OUTLOOK_SENTENCES: Record<string, Sentence> = {
  'limit': (r) =>
    `In rating weather it may carry ${r.allowed('lineA')} per phase${r.has('mva') ? ` (${r.allowedMva('mva')} MVA)` : ''}, taken at a ratio of `
    + `${r.plainRatio('upperRatio')}, under which it lies ${formatTimesIn(r.number('upperShare'))}, and ${r.limit('spliceC')}. ${LIMIT_CAUTION}`,
  'limit-of-section': (r) => `In rating weather it does not limit the section, which may carry ${r.allowed('sectionA')} per phase.`,
  'peak-over-limit': (r) =>
    `The expected peak of ${r.current('peakA')} passes what it may carry in rating weather, as advised ${r.allowed('lineA')} per phase${r.is('raises', true) ? ': urgent whatever its ratio' : ''}.`,
  'peak-over-least': (r) =>
    `The expected peak of ${r.current('peakA')} passes what it could carry in rating weather even at the ratio that was read, which is the least it has.`,
  'contingency-over-limit': (r) =>
    `After the worst outage elsewhere ${r.current('flowA')} would flow, more than the ${r.allowed('lineA')} per phase that it may carry in rating weather as advised.`,
  'trend': trend,
  'trend-contradicted': (r) => `${seriesName(r)} shows no trend: the readings contradict each other. Repeat the reading.`,
  'trend-too-short': (r) => `${seriesName(r)} shows no trend: the readings lie within ${r.oneDecimal('leastYears').replace(/\.0$/, '')} ${r.number('leastYears') === 1 ? 'year' : 'years'}.`,
  'trend-none': (r) => `${seriesName(r)} shows no growth over ${r.count('count')} readings.`,
}
