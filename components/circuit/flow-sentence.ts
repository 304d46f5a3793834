import { advisedText } from '@/components/splice/advised-text'
import { allowedA } from '@/lib/condition/governing-limit'
import type { CircuitJson } from '@/lib/contract/api'
import { formatCurrent } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import { askFirst, governedBy, governingA, isUnread, partLimits, type PartLimit } from './limits'

/**
 * What flows on the through line against the splice that limits it: 'Against 511 A (122 MVA), advised by 1420-080: last load 414 A, 29 Oct 2026;
 * peak 478 A; after contingency 665 A, 154 A over.' Empty where it has no section.
 */
export function flowSentence(circuit: CircuitJson, timeZone: string): { text: string; over: boolean } {
  const { main } = partLimits(circuit)
  if (main === null) return { text: '', over: false }
  const { last_load: last, expected_peak: peak, post_contingency: contingency } = main.section
  const lineA = isUnread(circuit, main) ? null : governingA(main)
  let passed = false
  const flow = (name: string, of: { current_a: number } | null, day = ''): string => {
    if (of === null) return `${name} not known`
    const overA = lineA === null ? 0 : of.current_a - allowedA(lineA)
    passed ||= overA > 0
    return `${name} ${formatCurrent(of.current_a)}${day}${overA > 0 ? `, ${formatCurrent(overA)} over` : ''}`
  }
  const flows = [
    flow('last load', last, last === null ? '' : `, ${formatDate(Date.parse(last.taken_at), timeZone)}`), flow('peak', peak), flow('after contingency', contingency),
  ].join('; ')
  return { text: `${againstText(circuit, main, lineA)}: ${flows}.`, over: passed }
}

function againstText(circuit: CircuitJson, main: PartLimit, lineA: number | null): string {
  if (lineA === null) return isUnread(circuit, main) ? 'No splice was read conclusively, so against nothing known' : 'What limits it is not known'
  const by = { 'in-force': `in force for ${main.inForce?.splice}`, 'advised': `advised by ${main.splice?.splice}`, 'rating': 'its rating', 'not-known': '' }[governedBy(main)]
  const first = askFirst(main) ? 'Ask the rating engineer, a limit has lapsed. ' : ''
  return `${first}Against ${first !== '' || main.mayBeLower.length > 0 ? 'not more than ' : ''}${advisedText(lineA, circuit.voltage_kv)}, ${by}`
}
