import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import type { ReadingJson } from '@/lib/contract/contract'
import { formatDate } from '@/lib/units/time'

/** What crews wrote beside their readings, and the pictures they named; the files themselves are not kept here. */
export function Remarks({ readings, timeZone }: { readings: readonly ReadingJson[]; timeZone: string }) {
  const { notes, photos } = remarksOf(readings)
  const when = ({ taken_at: at, fields }: ReadingJson) =>
    [at === null ? 'time not known' : formatDate(Date.parse(at), timeZone), typeof fields.crew === 'string' ? fields.crew : ''].filter((one) => one !== '').join(', ')
  return (
    <section className={cx(css.part, css.whole, css.dense, css.beside2, notes.length === 0 && css.oneLine, notes.length + photos.length === 0 && 'no-print')}>
      <h2>Remarks and pictures</h2>
      <div className={css.said}>
        {notes.length + photos.length === 0 ? <p className={css.note}>None came with a reading.</p> : notes.length === 0 ? null : (
          <ul className={`${css.sentences} ${css.brief}`}>
            {notes.map(({ reading, text }) => (
              <li key={reading.id}>
                {text} <span className="muted">({when(reading)})</span>
              </li>
            ))}
          </ul>
        )}
        {photos.length === 0 ? notes.length > 0 && <p className={`${css.note} no-print`}>No picture is named with a reading.</p> : (
          <p>
            Pictures named: {photos.map(({ reading, text }) => `${text} (${when(reading)})`).join(', ')}. <span className="muted">Not kept here: ask whoever took them.</span>
          </p>
        )}
      </div>
    </section>
  )
}

interface Remark { reading: ReadingJson; text: string }

/** The newest first. */
export function remarksOf(readings: readonly ReadingJson[]): { notes: Remark[]; photos: Remark[] } {
  const newestFirst = [...readings].sort((a, b) => (b.taken_at ?? '').localeCompare(a.taken_at ?? ''))
  const textsOf = (field: 'note' | 'photo') => newestFirst.flatMap((reading): Remark[] => {
    const value = reading.fields[field]
    const texts = (Array.isArray(value) ? value : [value]).map((one) => (typeof one === 'string' ? one.trim() : '')).filter((one) => one !== '')
    return texts.length === 0 ? [] : [{ reading, text: texts.join(', ') }]
  })
  return { notes: textsOf('note'), photos: textsOf('photo') }
}
