import { allowedA } from '@/lib/condition/governing-limit'
import type { CircuitHealth } from '@/lib/contract/contract'
import { csvLine } from '@/lib/intake'
import { listCircuits } from '@/lib/store/circuits'
import { listHealth } from '@/lib/store/health'
import type { Scope } from '@/lib/store/scope'
import { getSettings } from '@/lib/store/settings'

const COLUMNS = [
  'circuit', 'line_name', 'from', 'to', 'voltage_kv', 'length_m', 'critical', 'urgent', 'degraded', 'watch', 'sound', 'sound_past_re_measure', 'unknown', 'critical_place_not_settled', 'urgent_place_not_settled', 'worst_class',
  'worst_splice', 'worst_splice_class', 'worst_ratio', 'critical_overdue', 'urgent_overdue', 'degraded_overdue', 'longest_days_since_found', 'longest_overdue_splice',
  'critical_past_response', 'urgent_past_response', 'degraded_past_response',
  'critical_read_in_late', 'urgent_read_in_late', 'degraded_read_in_late', 'longest_unread_days', 'looked_at_share', 'conclusive_share', 'conclusive_current_share', 'conclusive_stale_share',
  'conclusive_oldest_on', 'conclusive_newest_on', 'last_surveyed_on', 'limits_in_force', 'lowest_limit_in_force_a',
  'lowest_limit_in_force_splice', 'limits_ask_engineer', 'lowest_limit_ask_engineer_a', 'lowest_limit_ask_engineer_splice', 'as_of', 'information_mark',
]

/** How every circuit stands, the worst first, as a table for a spreadsheet: SI units, each row with when it holds and how it is to be handled. */
export async function circuitsCsv(scope: Scope): Promise<string> {
  const [circuits, health, settings] = await Promise.all([listCircuits(scope), listHealth(scope), getSettings(scope)])
  const healthOf = new Map(health.map((h) => [h.circuit_id, h]))
  const rows = circuits.map((c) => {
    const h = healthOf.get(c.id)
    return [
      c.name, c.line_name, c.from, c.to, c.voltage_kv, Math.round(c.length_m), c.counts.critical, c.counts.urgent, c.counts.degraded, c.counts.watch, c.counts.sound, c.sound_past_re_measure,
      c.counts.unknown, c.unsettled.critical, c.unsettled.urgent, c.worst_class, h?.worst_splice?.splice, h?.worst_splice?.class, rounded(h?.worst_splice?.ratio),
      h?.overdue.critical, h?.overdue.urgent, h?.overdue.degraded, h?.overdue.longest?.days, h?.overdue.longest?.splice, h?.past_response.critical, h?.past_response.urgent, h?.past_response.degraded,
      h?.read_in_late.critical, h?.read_in_late.urgent, h?.read_in_late.degraded, h?.read_in_late.longest_days,
      rounded(h?.coverage.share), rounded(h?.coverage.conclusive_share), rounded(currentShare(h)), rounded(h?.coverage.conclusive_stale_share), h?.coverage.conclusive_oldest_on,
      h?.coverage.conclusive_newest_on, h?.last_surveyed_on, h?.limits.in_force,
      allowed(h?.limits.lowest_in_force?.line_a), h?.limits.lowest_in_force?.splice, h?.limits.ask_engineer, allowed(h?.limits.lowest_ask_engineer?.line_a), h?.limits.lowest_ask_engineer?.splice, h?.updated_at, settings.information_mark,
    ]
  })
  return `\uFEFF${[COLUMNS, ...rows].map((cells) => csvLine(cells.map((cell) => (cell === null || cell === undefined ? '' : String(cell))))).join('')}`
}

/** Looked at conclusively within the re-survey interval of the class there. */
const currentShare = (h: CircuitHealth | undefined): number | null | undefined =>
  h && (h.coverage.conclusive_share === null ? null : h.coverage.conclusive_share - (h.coverage.conclusive_stale_share ?? 0))

/** Whole amperes per phase, never rounded up. */
const allowed = (lineA: number | undefined): number | null => (lineA === undefined ? null : allowedA(lineA))

/** Four decimals, so that a share of nearly one never reads 1. */
function rounded(value: number | null | undefined): string | null {
  if (value === null || value === undefined) return null
  return String(value < 1 ? Math.floor(value * 1e4) / 1e4 : Math.round(value * 1e4) / 1e4)
}
