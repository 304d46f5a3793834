import { Icon } from '@/components/ui/icons'
import { useLocalText } from '@/components/ui/use-local-text'
import type { ImportReport } from '@/lib/contract/contract'
import { REJECTED_BUT_URGENT } from '@/lib/intake'
import { many } from './words'
import css from './urgent.module.css'

/**
 * Rows whose own numbers are urgent or critical and that were not read for another fault. Nothing of them is stored, so operations sees
 * none of them: this report is where the call starts.
 */
export function RejectedUrgent({ report }: { report: ImportReport }) {
  const local = useLocalText()
  const rows = report.issues.filter(({ code }) => code === REJECTED_BUT_URGENT)
  if (rows.length === 0) return null
  return (
    <section className={css.opening} aria-labelledby="rejected-urgent-title" role="alert">
      <header>
        <Icon name="phone" />
        <div>
          <h2 id="rejected-urgent-title">Call the control room about {many(rows.length, 'row')} not read</h2>
          <p>
            By {rows.length === 1 ? 'its' : 'their'} own numbers urgent or critical, and not stored for another fault: operations does not see{' '}
            {rows.length === 1 ? 'it' : 'them'}. Call now, then correct the rows and import them again.
          </p>
        </div>
      </header>
      <ul>
        {rows.map(({ row, message }) => (
          <li key={`${row} ${message}`} className={css.notRead}>
            {local(message)}
          </li>
        ))}
      </ul>
    </section>
  )
}
