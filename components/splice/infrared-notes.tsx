import { cx } from '@/components/ui/class-names'
import { Newest } from '@/components/ui/newest'
import css from '@/components/ui/sheet.module.css'
import { explainInfrared } from '@/lib/condition'
import type { OtherPhasesJson } from '@/lib/contract/other-phases'
import type { UnitSystem } from '@/lib/units/format'
import type { StoredInfrared } from './assessment'
import { otherPhasesText } from './other-phases'
import type { PhaseLetters } from './position'

/** Infrared beside the class, never instead of it; its caution once for all pictures. */
export function InfraredNotes({ notes, phases, system, timeZone, letters }: {
  notes: StoredInfrared[]
  phases: OtherPhasesJson[]
  system: UnitSystem
  timeZone: string
  letters: PhaseLetters
}) {
  // A cool picture takes nothing back of a hot one.
  const hotFirst = [...notes].sort((a, b) => Number(b.hot) - Number(a.hot) || (b.takenAtMs ?? 0) - (a.takenAtMs ?? 0))
  const explained = hotFirst.map((note) => ({
    key: String(note.readingId), beside: phases.find((one) => one.reading_id === note.readingId), ...explainInfrared(note, { unitSystem: system, timeZone }),
  }))
  const caution = explained.find((e) => e.caution !== '')?.caution
  return (
    <section className={cx(css.part, css.dense)}>
      <h2>Infrared, a secondary note</h2>
      <Newest more={explained.length === 1 ? 'Camera settings, criteria' : `Camera settings, criteria and ${explained.length - 1} ${notes.some(({ hot }) => hot) ? 'other' : 'earlier'}`}>
        <ul className={`${css.sentences} ${css.brief}`}>
          {explained.map((e, n) => (
            <li key={e.key} data-earlier={n > 0 || undefined}>
              {e.text} {e.inconclusive} <span className="no-print" data-earlier>{e.emissivity} {e.atRating}</span> {e.beside && otherPhasesText(e.beside, system, letters)} <span className="no-print" data-earlier>{e.underTable}</span>
              {e.criteria.map((c, i) => (
                <span key={c.text} className={`${css.under} no-print`} data-earlier>
                  {c.text.replace(/\.?$/, '.')} {c.source !== e.criteria[i + 1]?.source && <cite>{c.source}</cite>}{' '}
                </span>
              ))}
            </li>
          ))}
        </ul>
        {caution && <p className={`${css.small} no-print`} data-earlier>{caution}</p>}
      </Newest>
    </section>
  )
}
