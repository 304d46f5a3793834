import Link from 'next/link'
import type { CircuitHealth } from '@/lib/contract/contract'
import { formatAllowed, formatNumber } from '@/lib/units/format'

/** '2 limits in force, lowest 500 A, 2310-088', and those that have lapsed, of which an engineer is to be asked. Nothing where there is none. */
export function Limits({ of }: { of: CircuitHealth['limits'] }) {
  return (
    <>
      <Some count={of.ask_engineer} words={['limit lapsed, ask engineer', 'limits lapsed, ask engineer']} lowest={of.lowest_ask_engineer} strong />
      <Some count={of.in_force} words={['limit in force', 'limits in force']} lowest={of.lowest_in_force} />
    </>
  )
}

interface Props { count: number; words: [one: string, many: string]; lowest: CircuitHealth['limits']['lowest_in_force']; strong?: boolean }

function Some({ count, words: [one, many], lowest, strong }: Props) {
  if (count === 0) return null
  const said = `${formatNumber(count, 0)} ${count === 1 ? one : many}`
  return (
    <small>
      {strong ? <b>{said}</b> : said}
      {lowest && (
        <>
          , {count > 1 && 'lowest '}
          {formatAllowed(lowest.line_a)}, <Link href={`/splices/${lowest.splice_id}`} prefetch={false}>{lowest.splice}</Link>
        </>
      )}
    </small>
  )
}
