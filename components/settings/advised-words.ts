import type { AdvisedChangesJson } from '@/lib/contract/settings'
import { formatAllowed } from '@/lib/units/format'

const many = (count: number): string => count.toLocaleString('en-US')

/** '3 rise, 1 falls, 2 get a figure'; what there is none of is left out. */
export function advisedCounts({ rise, fall, none_before: fresh, none_after: gone }: AdvisedChangesJson): string {
  return [
    rise > 0 && `${many(rise)} ${rise === 1 ? 'rises' : 'rise'}`, fall > 0 && `${many(fall)} ${fall === 1 ? 'falls' : 'fall'}`,
    fresh > 0 && `${many(fresh)} ${fresh === 1 ? 'gets' : 'get'} a figure`, gone > 0 && `${many(gone)} ${gone === 1 ? 'loses its figure' : 'lose their figure'}`,
  ].filter(Boolean).join(', ')
}

const figure = (lineA: number | null): string => (lineA === null ? 'no figure' : formatAllowed(lineA))

/** '686 A → 723 A, above its limit in force of 690 A'. */
export function advisedStep({ from_a: from, to_a: to, in_force_a: inForceA, over_in_force: over }: AdvisedChangesJson['splices'][number]): string {
  return `${figure(from)} → ${figure(to)}${over && inForceA !== null ? `, above its limit in force of ${formatAllowed(inForceA)}` : ''}`
}
