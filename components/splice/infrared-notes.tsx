import css from '@/components/ui/sheet.module.css'
import { explainInfrared } from '@/lib/condition'
import type { UnitSystem } from '@/lib/units/format'
import type { StoredInfrared } from './assessment'

/** Infrared beside the class, never instead of it; its caution once for all pictures. */
export function InfraredNotes({ notes, system, timeZone }: { notes: StoredInfrared[]; system: UnitSystem; timeZone: string }) {
  const newestFirst = [...notes].sort((a, b) => (b.takenAtMs ?? 0) - (a.takenAtMs ?? 0))
  const explained = newestFirst.map((note) => ({ key: String(note.readingId), ...explainInfrared(note, { unitSystem: system, timeZone }) }))
  const caution = explained.find((e) => e.caution !== '')?.caution
  return (
    <section className={css.part}>
      <h2>Infrared, a secondary note</h2>
      <ul className={`${css.sentences} ${css.brief}`}>
        {explained.map((e) => (
          <li key={e.key}>
            {e.text} {e.inconclusive} {e.atRating} <span className="no-print">{e.underTable}</span>
            {e.criteria.map((c, i) => (
              <span key={c.text} className={`${css.under} ${css.running}`}>
                {c.text.replace(/\.?$/, '.')} {c.source !== e.criteria[i + 1]?.source && <cite>{c.source}</cite>}{' '}
              </span>
            ))}
          </li>
        ))}
      </ul>
      {caution && <p className={css.small}>{caution}</p>}
    </section>
  )
}
