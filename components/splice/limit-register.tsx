import type { ReactNode } from 'react'
import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import { allowedMeasure, formatAllowed, formatAllowedMva } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'

interface Props {
  detail: Pick<SpliceDetail, 'limits' | 'class' | 'removed_on'>
  timeZone: string
  /** Where somebody takes the next step. */
  act?: ReactNode
}

const HEADINGS: Record<CurrentLimitJson['standing'], string> = {
  'proposed': 'Proposed limit, not in force', 'agreed': 'Agreed limit, not in force', 'in-force': 'Limit in force', 'ask-engineer': 'Limit lapsed: ask engineer',
  'lifted': 'Lifted limit',
}

/** The register of limits: who proposed, agreed and accepted with read back, until when, and of earlier ones the same, with who lifted them and why. */
export function LimitRegister({ detail, timeZone, act }: Props) {
  const open = detail.limits.find(({ standing }) => standing !== 'lifted')
  const lifted = detail.limits.filter(({ standing }) => standing === 'lifted')
  const concerns = detail.class !== 'sound' && detail.removed_on === null
  if (!open && lifted.length === 0 && !concerns) return null
  // On paper once: what is next asks for it.
  const saidInNext = !open && lifted.length === 0 && (detail.class === 'urgent' || detail.class === 'critical')
  return (
    <section className={cx(css.part, css.whole, !open && lifted.length === 0 && css.oneLine, saidInNext && 'no-print')}>
      <h2>{open ? HEADINGS[open.standing] : 'Limit in force'}</h2>
      {open ? <Open of={open} timeZone={timeZone} /> : <p className={css.note}>{lifted.length === 0 ? 'No limit is on the register.' : 'No limit is in force now.'}</p>}
      {lifted.length > 0 && (
        <ul className={`${css.sentences} ${css.brief} ${css.small}`}>
          {lifted.map((one) => (
            <li key={one.id}>{closedText(one, timeZone)}</li>
          ))}
        </ul>
      )}
      {act && detail.removed_on === null && <p className={`${css.row} no-print`}>{act}</p>}
    </section>
  )
}

const when = (at: string | null, timeZone: string): string => (at === null ? '' : formatDateTime(Date.parse(at), timeZone))

/** Who ended it, when and why, and before that who had said what: one that never came into force was withdrawn. */
function closedText(of: CurrentLimitJson, timeZone: string): string {
  const ended = of.accepted_at === null ? 'withdrawn before it was in force' : 'lifted'
  const steps = [
    `Proposed ${when(of.proposed_at, timeZone)} by ${of.proposed_by}: ${of.reason}`.replace(/\.$/, ''),
    of.agreed_by === null ? 'agreed by nobody' : `agreed ${when(of.agreed_at, timeZone)} by ${of.agreed_by}`,
    of.accepted_by === null ? 'accepted by nobody' : `accepted with read back ${when(of.accepted_at, timeZone)} by ${of.accepted_by}`,
  ]
  return `${formatAllowed(of.line_a)}, ${ended} ${when(of.lifted_at, timeZone)} by ${of.lifted_by}: ${of.lifted_why?.replace(/\.$/, '')}. ${steps.join('; ')}.`
}

function Open({ of, timeZone }: { of: CurrentLimitJson; timeZone: string }) {
  return (
    <>
      <p className={css.carries}>
        <strong>
          <Quantity {...allowedMeasure(of.line_a)} />
        </strong>{' '}
        per phase{of.mva === null ? '' : `, ${formatAllowedMva(of.mva)} MVA`}
      </p>
      {of.standing_why && <p className={css.boxed}>{of.standing_why}</p>}
      <dl className={css.facts}>
        <dt>Proposed by</dt>
        <dd>
          {of.proposed_by}, {when(of.proposed_at, timeZone)}: {of.reason}
        </dd>
        <dt>Agreed by</dt>
        <dd>{of.agreed_by === null ? 'nobody yet: ask the rating engineer' : `${of.agreed_by}, rating engineer, ${when(of.agreed_at, timeZone)}`}</dd>
        <dt>Accepted by</dt>
        <dd>{of.accepted_by === null ? 'nobody yet: ask the control room' : `${of.accepted_by}, read back, ${when(of.accepted_at, timeZone)}`}</dd>
        {of.in_force_from !== null && <dt>In force from</dt>}
        {of.in_force_from !== null && <dd>{when(of.in_force_from, timeZone)}</dd>}
        <dt>Review by</dt>
        <dd>{when(of.review_by, timeZone)}</dd>
      </dl>
    </>
  )
}
