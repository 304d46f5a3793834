import css from '@/components/ui/sheet.module.css'
import { formatTemperature, formatTemperatureDifference, type UnitSystem } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import type { StoredInfrared } from './assessment'

/** Infrared beside the class, never instead of it. */
export function InfraredNotes({ notes, system, timeZone }: { notes: StoredInfrared[]; system: UnitSystem; timeZone: string }) {
  return (
    <section className={css.part}>
      <h2>Infrared, a secondary note</h2>
      <ul className={css.sentences}>
        {notes.map((n) => (
          <li key={String(n.readingId)}>
            {n.takenAtMs !== undefined && `${formatDate(n.takenAtMs, timeZone)}: `}{difference(n, system)}
            {n.inconclusive.length > 0 && <span className="muted"> Proves nothing of health: {n.inconclusive.join('; ')}.</span>}
            {n.criteria.map((c) => (
              <span key={c.column + c.band} className={css.small} style={{ display: 'block' }}>
                Against {c.column}, {c.band}: {c.action} ({c.source}).
              </span>
            ))}
          </li>
        ))}
      </ul>
      <p className={css.small}>
        The published criteria are not made for splices: a sound conductor at full load is already far above the air, and a splice that is
        only a little hotter than its conductor is already worse than it. A cool picture at low load proves nothing.
      </p>
    </section>
  )
}

function difference(n: StoredInfrared, system: UnitSystem): string {
  const parts = [
    n.spliceTempC === undefined ? '' : `splice at ${formatTemperature(n.spliceTempC, system)}`,
    n.overConductorK === undefined ? '' : `${formatTemperatureDifference(n.overConductorK, system)} over its conductor`,
    n.overAmbientK === undefined ? '' : `${formatTemperatureDifference(n.overAmbientK, system)} over the air`,
  ].filter(Boolean)
  return parts.length > 0 ? `${parts.join(', ')}.` : 'No temperature was recorded.'
}
