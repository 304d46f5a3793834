'use client'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { useUnitSystem } from '@/components/ui/preferences'
import sheet from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatCurrent, formatRatio, formatTimesIn, formatVoltage } from '@/lib/units/format'
import { allowedA } from '@/lib/condition/governing-limit'
import { leadsWith, type CircuitLimit } from './answer'
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
            <Register of={one} />
            {one.mayBeLower.length > 0 ? <NoFigure circuit={one.circuit} mayBeLower={one.mayBeLower} notMore={one.rated} />
              : one.rated ? <Limit circuit={one.circuit} found={one.rated} share={share} whatIf={rating ? null : one.found} compared={leadsWith(one) === 'advised'} />
                : one.inForce === null && <p className={sheet.note}>{one.circuit}: no splice with a ratio to reckon with.</p>}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What the register says, before what is advised: whom to ask of one that has lapsed, and the limit in force with the current against it. */
function Register({ of: { circuit, inForce, lapsed } }: { of: CircuitLimit }) {
  const overA = inForce && inForce.section.currentA !== null ? inForce.section.currentA - allowedA(inForce.lineA) : null
  return (
    <>
      {lapsed.map(({ of, lineA }) => (
        <p key={of.id} className={sheet.overdue}>
          Ask the rating engineer: the limit of {formatAllowed(lineA)} of splice <Link href={`/splices/${of.id}`}>{of.splice}</Link> has lapsed.
        </p>
      ))}
      {inForce && (
        <>
          <p className={css.limit}>
            <span className={css.limitName}>{circuit}</span>
            <strong>
              <Quantity {...allowedMeasure(inForce.lineA)} />
            </strong>{' '}
            per phase
            {inForce.mva !== null && inForce.section.section.of.voltage_kv !== null && (
              <>
                , <strong>{formatAllowedMva(inForce.mva)}</strong> MVA at {formatVoltage(inForce.section.section.of.voltage_kv)}
              </>
            )}{' '}
            <span className={css.mark}>limit in force</span>
          </p>
          <p className={sheet.note}>
            Of splice <ClassMark class={inForce.of.class} size={12} /> <Link href={`/splices/${inForce.of.id}`}>{inForce.of.splice}</Link>, accepted with read back; it holds in any weather.
          </p>
          {overA !== null && (
            <p className={cx(overA > 0 && sheet.overdue)}>
              {overA > 0 ? `The current taken passes the limit in force by ${formatCurrent(overA)}.` : `The current taken is ${formatCurrent(-overA)} under the limit in force.`}
            </p>
          )}
        </>
      )}
    </>
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

function Limit({ circuit, found: { joint, section, limit }, share, whatIf, compared }: { circuit: string; found: Limiting; share: number; whatIf: Limiting | null; compared: boolean }) {
  const [system] = useUnitSystem()
  const { of } = section.section
  // Beside a limit in force or a lapsed one no current is held against the advised figure.
  const overA = section.currentA === null || !compared ? null : section.currentA - Math.floor(limit.lineA)
  return (
    <>
      <p className={compared ? css.limit : undefined}>
        {compared && <span className={css.limitName}>{circuit}</span>}
        <strong>
          <Quantity {...allowedMeasure(limit.lineA)} />
        </strong>{' '}
        per phase
        {limit.mva !== null && of.voltage_kv !== null && (
          <>
            , <strong>{formatAllowedMva(limit.mva)}</strong> MVA at {formatVoltage(of.voltage_kv)}
          </>
        )}{' '}
        <span className={css.mark}>{compared ? 'at rating weather' : 'advised, at rating weather'}</span>
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
