'use client'
import { ClassMark } from '@/components/map/class-mark'
import sheet from '@/components/ui/sheet.module.css'
import { NOT_DRAWN } from '@/lib/condition/loading/line-joint'
import { UNREAD_SHARE } from '@/lib/condition/loading/unread-bound'
import type { Policy } from '@/lib/condition/policy'
import { formatRatio } from '@/lib/units/format'
import { unread, type ReckonedSection } from './reckon'
import { LEFT_OUT_WORDS } from './words'

const splices = (count: number): string => `${count} ${count === 1 ? 'splice' : 'splices'}`

/** What is not known, with how many and why: none of it is sound. */
export function LeftOut({ reckoned, policy }: { reckoned: readonly ReckonedSection[]; policy: Policy }) {
  const { count, upperK, blind } = unread(reckoned)
  const out = reckoned.flatMap(({ section }) => section.leftOut)
  if (count === 0 && blind.length === 0 && out.length === 0) return null
  return (
    <section className={sheet.part} aria-labelledby="left-out">
      <h2 id="left-out">Not known</h2>
      <ul className={sheet.sentences}>
        {blind.length > 0 && (
          <li>
            <ClassMark class="urgent" size={13} /> {splices(blind.length)} degraded or worse without a ratio that tells why, so no temperature and no current can be given: ask the rating
            engineer. {blind.slice(0, 5).map(({ of }) => of.splice).join(', ')}
            {blind.length > 5 && ` and ${blind.length - 5} more`}.
          </li>
        )}
        {count > 0 && (
          <li>
            <ClassMark class="unknown" size={13} /> {splices(count)} without a ratio that can be relied on: nothing can be said of them. Their hatched whiskers end at{' '}
            {formatRatio(upperK)}: the worse of the policy’s own bound of an unread splice and of the upper ratio that {UNREAD_SHARE * 100} in 100 read ones on their circuit stay
            within. A read splice is taken at the ratio that it lies under with a chance of {Math.round(policy.limit.upperShare * 1000) / 10} in 100. Unread ones count neither as passing nor as sound: read them.
          </li>
        )}
        {NOT_DRAWN.flatMap((why) => {
          const own = out.filter((one) => one.why === why)
          return own.length === 0 ? [] : [
            <li key={why}>
              {splices(own.length)} left out, {LEFT_OUT_WORDS[why]}.
            </li>,
          ]
        })}
      </ul>
    </section>
  )
}
