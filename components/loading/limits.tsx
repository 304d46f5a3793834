'use client'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatCurrent, formatRatio, formatTimesIn, formatVoltage } from '@/lib/units/format'
import type { CircuitLimit } from './answer'
import type { Limiting } from './reckon'
import { degreesText, sectionText, unknownRemedy, unknownWhy } from './words'
import css from './loading.module.css'

/** Which splice reaches its temperature first, and what it allows at rating weather, the figure for operations; what other weather would allow stands under it and is no rating. */
export function WhatLimits({ limits, rating, share }: { limits: readonly CircuitLimit[]; rating: boolean; /** How often a splice lies under its upper ratio. */ share: number }) {
  return (
    <section className={sheet.part} aria-labelledby="limits">
      <h2 id="limits">What limits?</h2>
      <ul className={css.limits}>
        {limits.map((one) => (
          <li key={one.circuit}>
            {one.mayBeLower.length > 0 ? <NoFigure circuit={one.circuit} mayBeLower={one.mayBeLower} notMore={one.rated} />
              : one.rated ? <Limit circuit={one.circuit} found={one.rated} share={share} whatIf={rating ? null : one.found} />
                : <p className={sheet.note}>{one.circuit}: no splice with a ratio to reckon with.</p>}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** More than these are counted: the rest stand in the table of splices. */
const NAMED = 3

/** The words of the splice's own sheet. */
function NoFigure({ circuit, mayBeLower, notMore }: { circuit: string; mayBeLower: CircuitLimit['mayBeLower']; notMore: Limiting | null }) {
  const more = mayBeLower.length - NAMED
  return (
    <>
      <p className={css.limit}>
        <span className={css.limitName}>{circuit}</span>
        {notMore ? (
          <>
            Not more than{' '}
            <strong>
              <Quantity {...allowedMeasure(notMore.limit.lineA)} />
            </strong>{' '}
            per phase
          </>
        ) : <strong>Not known</strong>}{' '}
        <span className={css.markWarn}>Not for operations</span>
      </p>
      {notMore && (
        <p className={sheet.note}>
          By splice <ClassMark class={notMore.joint.of.class} size={12} /> <Link href={`/splices/${notMore.joint.of.id}`}>{notMore.joint.of.splice}</Link>; {mayBeLower.length === 1 ? 'another' : `${mayBeLower.length} others`} may be lower:
        </p>
      )}
      {mayBeLower.slice(0, NAMED).map((by) => (
        <p key={by.id} className={sheet.note}>
          <ClassMark class={by.class} size={12} /> <Link href={`/splices/${by.id}`}>{by.splice}</Link> {unknownWhy(by)}. {unknownRemedy(by)}
        </p>
      ))}
      {more > 0 && <p className={sheet.note}>And {more} more without a figure: see the table of splices.</p>}
    </>
  )
}

function Limit({ circuit, found: { joint, section, limit }, share, whatIf }: { circuit: string; found: Limiting; share: number; whatIf: Limiting | null }) {
  const [system] = useUnitSystem()
  const { of } = section.section
  const overA = section.currentA === null ? null : section.currentA - Math.floor(limit.lineA)
  return (
    <>
      <p className={css.limit}>
        <span className={css.limitName}>{circuit}</span>
        <strong>
          <Quantity {...allowedMeasure(limit.lineA)} />
        </strong>{' '}
        per phase
        {limit.mva !== null && of.voltage_kv !== null && (
          <>
            , <strong>{formatAllowedMva(limit.mva)}</strong> MVA at {formatVoltage(of.voltage_kv)}
          </>
        )}{' '}
        <span className={css.mark}>at rating weather</span>
      </p>
      {whatIf && (
        <p>
          {formatAllowed(whatIf.limit.lineA)} per phase in the weather taken <span className={css.markWarn}>Not a rating</span>
        </p>
      )}
      <p className={sheet.note}>
        {limit.limitedBy === 'splice' ? 'By splice ' : 'By the section; the splice next to limit it is '}
        <ClassMark class={joint.of.class} size={12} /> <Link href={`/splices/${joint.of.id}`}>{joint.of.splice}</Link>
        {of.name === 'main' ? '' : ` on ${sectionText(of)}`}: not over{' '}
        {degreesText(limit.spliceC, system)} at a ratio of {formatRatio(limit.k)}, under which it lies {formatTimesIn(share)}. Never over the{' '}
        {limit.sectionFrom === 'rating' ? `section’s rating of ${formatAllowed(limit.sectionA)}` : `${formatAllowed(limit.sectionA)} of the conductor itself: no rating is on record`}
        {of.subconductors > 1 ? `. ${formatAllowed(limit.spliceSubconductorA)} per subconductor, equal shares taken` : ''}. Continuous: no time for an emergency.
      </p>
      {overA !== null && (
        <p className={cx(overA > 0 && sheet.overdue)}>
          {overA > 0 ? `The current taken passes it by ${formatCurrent(overA)}.` : `The current taken is ${formatCurrent(-overA)} under it.`}
        </p>
      )}
    </>
  )
}
