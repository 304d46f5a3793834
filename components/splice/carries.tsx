import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { allowedA, type GoverningLimit } from '@/lib/condition/governing-limit'
import { mvaOf } from '@/lib/condition/current-limit'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { CarryingLimit, Outlook } from '@/lib/contract/outlook'
import {
  allowedMeasure, formatAllowed, formatAllowedMva, formatAlong, formatCurrent, formatRatio, formatTemperature, formatTemperatureLimit,
  formatTimesIn, formatVoltage, formatWholeTemperature, formatWind, type UnitSystem,
} from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { formatDate } from '@/lib/units/time'
import { governingOf, lapsedWhy, openLimitOf, type Carrying } from './governing'
import { wasSound } from './past-re-measure'

type Shown = Carrying & Pick<SpliceDetail, 'voltage_kv' | 'subconductors' | 'rating_a' | 'last_reading_at' | 'class' | 'measure_by' | 'flags'>

interface Props { detail: Shown; system: UnitSystem; timeZone: string; nowMs: number }

/** One figure for operations: the limit in force, else what the splice may carry at rating weather as advised, or what is not known and whom to ask. */
export function Carries({ detail, system, timeZone, nowMs }: Props) {
  const { outlook } = detail
  const governing = governingOf(detail)
  const limit = outlook?.limit ?? null
  const noLimit = outlook?.no_limit ?? null
  const until = untilText(detail, governing, timeZone)
  if (governing === null && noLimit === null) {
    return (
      <section className={css.part}>
        <h2>What it may carry</h2>
        <p className={css.note}>
          {unlimitedText(detail, nowMs)}
          {detail.rating_a === null ? ' has no rating on record: ask engineering.' : ` is rated ${formatCurrent(detail.rating_a)} per phase.`}
        </p>
      </section>
    )
  }
  return (
    <section className={css.part}>
      <h2>What it may carry</h2>
      {governing ? <Headline governing={governing} detail={detail} until={until} timeZone={timeZone} /> : <p className={css.note}>{noLimit && spell(noLimit, system)}</p>}
      {governing?.kind === 'in-force' && until !== '' && <p>{until}</p>}
      {outlook && limit && governing?.kind === 'advised' && <p className={css.small}>{basisText(limit, outlook, detail.subconductors, system)}</p>}
      {governing && governing.kind !== 'advised' && (
        <p className={css.small}>{outlook && limit ? `The advised figure: ${basisText(limit, outlook, detail.subconductors, system)}` : `No figure is advised. ${noLimit ? spell(noLimit, system) : ''}`}</p>
      )}
      {outlook && <HotterAir of={outlook.in_hotter_air} advisedA={limit?.line_a ?? 0} peakA={detail.expected_peak?.current_a ?? null} system={system} />}
      {outlook && limit && <p className={css.small}>{spell(outlook.caution, system)}</p>}
    </section>
  )
}

/** Without a figure of its own: what that says, as far as its readings go, up to the words on its section. */
function unlimitedText(of: Pick<Shown, 'class' | 'measure_by' | 'flags'>, nowMs: number): string {
  if (of.class === 'unknown') return 'Not known: nothing conclusive was read of it. Ask for a reading. Its section'
  if (wasSound(of, nowMs)) return 'Not known any more: it was to be measured again. When it was read nothing limited it below its section, which'
  if (of.flags.includes('infrared-only')) return 'Not known of each side: infrared sees their mean, and that does not limit it below its section, which'
  return 'Nothing that was read limits it below its section, which'
}

/** What a hot afternoon leaves of the advised figure; where that brings it under the peak, that is said. */
function HotterAir({ of, advisedA, peakA, system }: { of: Outlook['in_hotter_air']; advisedA: number; peakA: number | null; system: UnitSystem }) {
  if (of.length === 0) return null
  const over = peakA === null || peakA > allowedA(advisedA) ? undefined : of.find(({ line_a: lineA }) => peakA > allowedA(lineA))
  const air = (ambientC: number) => formatWholeTemperature(ambientC, system).replace(' ', '\u00a0')
  const atText = ({ ambient_c: ambientC, line_a: lineA }: (typeof of)[number]) => `${formatAllowed(lineA)} at ${air(ambientC)}`
  return (
    <p>
      Advised in hotter air, not a rating: {of.map(atText).join(', ')}.
      {over && peakA !== null && <strong className={css.overdue}> At {air(over.ambient_c)} the peak of {formatCurrent(peakA)} passes it.</strong>}
    </p>
  )
}

function Headline({ governing, detail, until, timeZone }: { governing: GoverningLimit; detail: Shown; until: string; timeZone: string }) {
  const open = openLimitOf(detail)
  if (governing.kind === 'ask-engineer') {
    return (
      <>
        <p className={css.carries}>
          <strong>Ask the rating engineer</strong>
        </p>
        <p>
          The limit of {formatAllowed(governing.lapsedA)} has lapsed. {lapsedWhy(detail)}
        </p>
      </>
    )
  }
  const mva = detail.voltage_kv === null ? null : mvaOf(governing.lineA, detail.voltage_kv)
  return (
    <>
      {governing.kind === 'in-force' && governing.advisedIsLower && governing.advisedA !== null && (
        <p className={cx(css.boxed, css.overdue)}>
          Advised {formatAllowed(governing.advisedA)} now, which is below the limit in force. Ask the rating engineer.
        </p>
      )}
      <p className={css.carries}>
        <strong>
          <Quantity {...allowedMeasure(governing.lineA)} />
        </strong>{' '}
        per phase
        {mva !== null && detail.voltage_kv !== null && (
          <>
            , <strong>{formatAllowedMva(mva)}</strong> MVA at {formatVoltage(detail.voltage_kv)}
          </>
        )}
        {governing.kind === 'in-force' && `: limit in force${open ? `, review by ${formatDate(Date.parse(open.review_by), timeZone)}` : ''}`}
        {governing.kind === 'in-force' && governing.advisedA !== null && <small className={css.under}>advised {formatAllowed(governing.advisedA)}</small>}
      </p>
      {mva === null && <p className={css.note}>MVA not known: the circuit’s voltage is not on record. Ask line engineering.</p>}
      {governing.kind === 'advised' && (
        <p className={css.note}>
          Advised; no limit is in force.
          {open && ` ${formatAllowed(open.line_a)} is ${open.standing} and binds nobody until ${open.agreed_at === null ? 'the rating engineer agrees and an operator accepts it' : 'an operator accepts it'}.`} {until}
        </p>
      )}
    </>
  )
}

/** Until when it may carry that: a limit in force to its review or the next load above it, an advised figure no longer than what it was read from holds. */
function untilText({ outlook, limits, last_reading_at: readAt }: Shown, governing: GoverningLimit | null, timeZone: string): string {
  const day = (at: string) => formatDate(Date.parse(at), timeZone)
  if (governing?.kind === 'in-force') {
    const open = openLimitOf({ limits })
    return open ? `Until ${day(open.review_by)}, or the next load above it: then ask the rating engineer.` : ''
  }
  if (governing?.kind !== 'advised') return ''
  const due = outlook?.next_reading_due_at
  return `Until when: nobody has agreed. ${readAt === null ? '' : `Read ${day(readAt)}${due ? `, to be read again by ${day(due)}` : ''}.`}`
}

function basisText(limit: CarryingLimit, outlook: Pick<Outlook, 'in_hotter_air'>, subconductors: number, system: UnitSystem): string {
  const section = `${formatCurrent(limit.section_a)}${limit.section_from === 'rating' ? '' : ' (no rating on record: its conductor in rating weather)'}`
  if (limit.limited_by === 'section') return `${limit.held_ratio === null ? '' : `At ratio ${formatRatio(limit.held_ratio)}, the finding that holds it, until cleared. `}It does not limit its section, which may carry ${section}.`
  const { ambient_c: ambientC, wind_m_s: windMS, sun_w_m2: sunWPerM2, elevation_m: elevationM } = limit.weather
  const hotter = outlook.in_hotter_air.length === 0 ? '; in hotter air less: see Loading' : ''
  const shares = subconductors > 1 ? `, ${formatAllowed(limit.splice_subconductor_a)} per subconductor with equal shares taken` : ''
  const held = limit.held_ratio === null ? '' : `At ratio ${formatRatio(limit.held_ratio)}, the finding that holds it, until cleared. `
  return `${held}Rating weather: air ${formatTemperature(ambientC, system)}, wind ${formatWind(windMS, system)}, sun ${sunWPerM2} W/m², elevation ${formatAlong(elevationM, system)}${hotter}. `
    + `Splice not over ${formatTemperatureLimit(limit.splice_c, system)} at a ratio of `
    + `${formatRatio(limit.upper_k)}, under which it lies ${formatTimesIn(limit.upper_share)}${shares}. Section: ${section}.`
}
