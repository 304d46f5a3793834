'use client'
import { ClassMark } from '@/components/map/class-mark'
import { useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { NOT_DRAWN } from '@/lib/condition/loading/line-joint'
import type { Policy } from '@/lib/condition/policy'
import { formatRatio } from '@/lib/units/format'
import { unread, type ReckonedSection } from './reckon'
import { degreesText, LEFT_OUT_WORDS } from './words'

const splices = (count: number): string => `${count} ${count === 1 ? 'splice' : 'splices'}`

/** What is not known, with how many and why: none of it is sound. */
export function LeftOut({ reckoned, policy }: { reckoned: readonly ReckonedSection[]; policy: Policy }) {
  const [system] = useUnitSystem()
  const { count, upperK, passing, worst } = unread(reckoned, policy)
  const out = reckoned.flatMap(({ section }) => section.leftOut)
  if (count === 0 && out.length === 0) return null
  return (
    <section className={sheet.part} aria-labelledby="left-out">
      <h2 id="left-out">Not known</h2>
      <ul className={sheet.sentences}>
        {count > 0 && (
          <li>
            <ClassMark class="unknown" size={13} /> {splices(count)} without a ratio that can be relied on, drawn at {formatRatio(upperK)}: what the policy believes an unread
            splice lies under. {passing === 0 ? 'None' : passing} of them would pass {degreesText(policy.limit.temperatureC, system)} at that
            {worst && `, the hottest ${worst.of.splice} at ${degreesText(worst.upperC, system)}`}. They count neither as passing nor as sound: read them.
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
