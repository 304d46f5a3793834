import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import type { AdvisedChangesJson } from '@/lib/contract/settings'
import { advisedCounts, advisedStep } from './advised-words'
import css from './policy.module.css'

/** What a policy would do to the currents that splices are advised to carry: operations goes by them, whatever the classes do. */
export function AdvisedChanges({ of }: { of: AdvisedChangesJson }) {
  if (of.total === 0) return <p className={css.quiet}>No advised current changes.</p>
  return (
    <>
      <p className={css.total} role="status">
        <b>{of.total.toLocaleString('en-US')}</b> {of.total === 1 ? 'advised current changes' : 'advised currents change'}
      </p>
      <p className={css.quiet}>
        {advisedCounts(of)}.{of.acute > 0 && ` ${of.acute.toLocaleString('en-US')} of them urgent or critical.`}
      </p>
      {of.over_in_force > 0 && (
        <strong role="note">
          {of.over_in_force === 1 ? 'One rises' : `${of.over_in_force.toLocaleString('en-US')} rise`} above a limit in force. The limit holds until a person lifts it.
        </strong>
      )}
      <ul className={css.advised} aria-label="Advised currents now and then">
        {of.splices.map((one) => (
          <li key={one.id}>
            <Link href={`/splices/${one.id}`}>
              <ClassMark class={one.class} size={14} /> {one.splice}
            </Link>
            <span>{advisedStep(one)}</span>
          </li>
        ))}
      </ul>
      {of.splices.length < of.total && <p className={css.quiet}>The first {of.splices.length} of them, urgent and critical first.</p>}
    </>
  )
}
