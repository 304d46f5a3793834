import { phaseText } from '@/components/splice/position'
import type { SettingsJson } from '@/lib/contract/settings'
import { formatLineDistance, formatOffset, formatTemperature, formatWind } from '@/lib/units/format'
import { formatDateTime, isTimeZone } from '@/lib/units/time'
import css from './settings.module.css'

/** An example in no place: one place, one reading and one moment, as everybody will read them. */
export function SettingsSample({ draft }: { draft: SettingsJson }) {
  const { unit_system: system, time_zone: zone, phase_letters: letters } = draft
  const lines: [string, string][] = [
    ['A place', `STR 45-46 + ${formatOffset(123, system)}, ${phaseText({ phase: 'B', position: null }, letters)}`],
    ['Line distance', formatLineDistance(13_123, system)],
    ['Air', formatTemperature(14.5, system)],
    ['Wind', formatWind(2.2, system)],
    ['A moment', isTimeZone(zone) ? formatDateTime(Date.UTC(2026, 4, 6, 14, 12), zone) : 'no such zone'],
  ]
  return (
    <aside className={css.sample} aria-label="How it will read">
      <h2>How it will read</h2>
      <dl>
        {lines.map(([what, text]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <p className={css.mark}>{[draft.utility_name, draft.information_mark].filter(Boolean).join(' · ') || 'no name, no mark'}</p>
    </aside>
  )
}
