import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import { formatAllowed, formatAllowedMva } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'

const WORDS: Record<CurrentLimitJson['standing'], string> = {
  'proposed': 'proposed, not in force', 'agreed': 'agreed, not in force', 'in-force': 'in force', 'ask-engineer': 'lapsed, ask engineer', 'lifted': 'lifted',
}

interface Props {
  /** The lowest first. */
  limits: readonly CurrentLimitJson[]
  timeZone: string
  onSelect?(id: number): void
}

/** The register of a circuit's splices, the lowest first; what governs of it stands in what the circuit may carry. */
export function CircuitLimits({ limits, timeZone, onSelect }: Props) {
  return (
    <ul className={css.sentences}>
      {limits.map((one) => (
        <li key={one.id}>
          <strong>{formatAllowed(one.line_a)}</strong> per phase{one.mva === null ? '' : `, ${formatAllowedMva(one.mva)} MVA`}, by splice{' '}
          <InPlaceLink href={`/splices/${one.splice_id}`} onSelect={onSelect && (() => onSelect(one.splice_id))}>
            {one.splice}
          </InPlaceLink>
          : {WORDS[one.standing]}, review by {formatDate(Date.parse(one.review_by), timeZone)}.
          {one.standing_why && <span className={css.under}>{one.standing_why}</span>}
        </li>
      ))}
    </ul>
  )
}
