import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { overA, type GoverningLimit } from '@/lib/condition/governing-limit'
import { mvaOf } from '@/lib/condition/current-limit'
import { OwnTemperature } from './own-temperature'
import type { LastLoad, SpliceDetail } from '@/lib/contract/contract'
import type { CarryingLimit } from '@/lib/contract/outlook'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatAlong, formatCurrent, formatRatio, formatTemperature, formatTemperatureLimit, formatTimesIn, formatVoltage, formatWind, type UnitSystem } from '@/lib/units/format'
import { NO_TEMPERATURE_WHILE_HELD } from '@/lib/condition/words'
import { spell } from '@/lib/units/spelling'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import { governingName, governingOf, lapsedWhy, openLimitOf, PRESENT_MS, type Carrying } from './governing'

type Shown = Carrying & Pick<SpliceDetail, 'temperatures' | 'voltage_kv' | 'subconductors'>

interface Props { detail: Shown; system: UnitSystem; timeZone: string; nowMs: number }

/** One figure for operations: the limit in force, else what the splice may carry at rating weather as advised, or what is not known and whom to ask. */
export function Carries({ detail, system, timeZone, nowMs }: Props) {
  const { outlook, temperatures } = detail
  const governing = governingOf(detail)
  const limit = outlook?.limit ?? null
  const noLimit = outlook?.no_limit ?? null
  if (governing === null && noLimit === null) return null
  return (
    <section className={css.part}>
      <h2>What it may carry</h2>
      {governing ? <Headline governing={governing} detail={detail} timeZone={timeZone} /> : <p className={css.note}>{noLimit && spell(noLimit, system)}</p>}
      {limit && governing?.kind === 'advised' && <p className={css.note}>{basisText(limit, detail.subconductors, system)}</p>}
      <Planned detail={detail} governing={governing} />
      <p>{loadText(detail.last_load, governing, limit, timeZone, nowMs)}</p>
      {temperatures && temperatures.no_at_rating !== NO_TEMPERATURE_WHILE_HELD && <OwnTemperature of={temperatures} load={detail.last_load} limitC={limit?.splice_c ?? null} system={system} timeZone={timeZone} />}
      {governing && governing.kind !== 'advised' && (
        <p className={css.small}>{limit ? `The advised figure: ${basisText(limit, detail.subconductors, system)}` : `No figure is advised. ${noLimit ? spell(noLimit, system) : ''}`}</p>
      )}
      {outlook && limit && <p className={css.small}>{spell(outlook.caution, system)}</p>}
    </section>
  )
}

function Headline({ governing, detail, timeZone }: { governing: GoverningLimit; detail: Shown; timeZone: string }) {
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
          {open && ` ${formatAllowed(open.line_a)} is ${open.standing} and binds nobody until ${open.agreed_at === null ? 'the rating engineer agrees and an operator accepts it' : 'an operator accepts it'}.`}
        </p>
      )}
    </>
  )
}

/** What flows against what governs, with its age: an old margin is not one to run on. */
function loadText(load: LastLoad | null, governing: GoverningLimit | null, limit: CarryingLimit | null, timeZone: string, nowMs: number): string {
  if (load === null) return 'Present flow not known: ask the control room. Without it the splice’s temperature cannot be computed.'
  const atMs = Date.parse(load.taken_at)
  const old = nowMs - atMs >= PRESENT_MS
  const estimated = load.quality === 'estimated' ? ', estimated' : ''
  const at = `Last known flow ${formatCurrent(load.current_a)}${estimated}, ${formatDateTime(atMs, timeZone)}${old ? `, ${durationText(nowMs - atMs)} ago` : ''}`
  const ask = old ? ' Ask the control room for the present flow.' : ''
  const margin = governing === null ? '' : marginText(governing, load.current_a, limit)
  return `${at}${margin === '' ? '' : `: ${margin}${old ? ' then' : ''}`}.${ask}`
}

/** '46 A over the limit in force'; a lapsed limit leaves no margin to speak of. */
function marginText(governing: GoverningLimit, currentA: number, limit: CarryingLimit | null): string {
  const name = governingName(governing, limit?.section_from === 'rating' ? limit.limited_by : 'splice')
  const over = overA(governing, currentA)
  if (over > 0) return `${formatCurrent(over)} over ${name}`
  return governing.kind === 'ask-engineer' ? '' : `${formatCurrent(-over)} under ${name}`
}

const PLANNED = [['expected_peak', 'Expected peak'], ['post_contingency', 'Flow after the worst outage elsewhere']] as const

/** What the planner said against what governs, and what nobody has said. */
function Planned({ detail, governing }: { detail: Shown; governing: GoverningLimit | null }) {
  const missing = PLANNED.filter(([flow]) => detail[flow] === null).map(([, name]) => name)
  return (
    <>
      <ul className={css.sentences}>
        {PLANNED.flatMap(([flow, name]) => {
          const currentA = detail[flow]?.current_a
          if (currentA === undefined) return []
          const margin = governing === null ? '' : marginText(governing, currentA, detail.outlook?.limit ?? null)
          return [
            <li key={flow}>
              {name} {formatCurrent(currentA)}{margin === '' ? '' : ': '}
              {governing !== null && overA(governing, currentA) > 0 ? <strong className={css.overdue}>{margin}</strong> : margin}.
            </li>,
          ]
        })}
      </ul>
      {missing.length > 0 && <p className={css.note}>{missing.map((name, i) => (i === 0 ? name : `${name.charAt(0).toLowerCase()}${name.slice(1)}`)).join(' and ')} not known: ask the system planner.</p>}
    </>
  )
}

function basisText(limit: CarryingLimit, subconductors: number, system: UnitSystem): string {
  const section = `${formatCurrent(limit.section_a)}${limit.section_from === 'rating' ? '' : ' (no rating on record: its conductor in rating weather)'}`
  if (limit.limited_by === 'section') return `${limit.held_ratio === null ? '' : `At ratio ${formatRatio(limit.held_ratio)}, the finding that holds it, until cleared. `}It does not limit its section, which may carry ${section}.`
  const { ambient_c: ambientC, wind_m_s: windMS, sun_w_m2: sunWPerM2, elevation_m: elevationM } = limit.weather
  const shares = subconductors > 1 ? `, ${formatAllowed(limit.splice_subconductor_a)} per subconductor with equal shares taken` : ''
  const held = limit.held_ratio === null ? '' : `At ratio ${formatRatio(limit.held_ratio)}, the finding that holds it, until cleared. `
  return `${held}Rating weather: air ${formatTemperature(ambientC, system)}, wind ${formatWind(windMS, system)}, sun ${sunWPerM2} W/m², elevation ${formatAlong(elevationM, system)}; in hotter air less: see Loading. `
    + `Splice not over ${formatTemperatureLimit(limit.splice_c, system)} at a ratio of `
    + `${formatRatio(limit.upper_k)}, under which it lies ${formatTimesIn(limit.upper_share)}${shares}. Section: ${section}.`
}
