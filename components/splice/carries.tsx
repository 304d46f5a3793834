import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { OwnTemperature } from './own-temperature'
import type { LastLoad, SpliceDetail } from '@/lib/contract/contract'
import type { CarryingLimit } from '@/lib/contract/outlook'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatAlong, formatCurrent, formatRatio, formatTemperature, formatTemperatureLimit, formatTimesIn, formatVoltage, formatWind, type UnitSystem } from '@/lib/units/format'
import { NO_TEMPERATURE_WHILE_HELD } from '@/lib/condition/words'
import { spell } from '@/lib/units/spelling'
import { formatDateTime } from '@/lib/units/time'
import { durationText } from './age'

const FLOW_WORDS = { present: 'Flow now', expected_peak: 'Expected peak', post_contingency: 'Flow after the worst outage elsewhere' }

type Shown = Pick<SpliceDetail, 'outlook' | 'temperatures' | 'last_load' | 'voltage_kv' | 'subconductors'>

/** One figure for operations: what the splice may carry at rating weather, or what is not known and whom to ask. */
export function Carries({ detail, system, timeZone, nowMs }: { detail: Shown; system: UnitSystem; timeZone: string; nowMs: number }) {
  const { outlook } = detail
  if (!outlook) return null
  const { limit, no_limit: noLimit, caution } = outlook
  if (!limit && noLimit === null) return null
  return (
    <section className={css.part}>
      <h2>What it may carry</h2>
      {limit ? <Figure limit={limit} detail={detail} system={system} /> : <p className={css.note}>{noLimit && spell(noLimit, system)}</p>}
      <p>{loadText(detail.last_load, limit?.line_a ?? null, timeZone, nowMs)}</p>
      {limit && <Planned flows={limit.flows} />}
      {detail.temperatures && detail.temperatures.no_at_rating !== NO_TEMPERATURE_WHILE_HELD && <OwnTemperature of={detail.temperatures} load={detail.last_load} limitC={limit?.splice_c ?? null} system={system} timeZone={timeZone} />}
      {limit && <p className={css.small}>{spell(caution, system)}</p>}
    </section>
  )
}

/** A flow older than this is no margin of now. */
const PRESENT_MS = 3_600_000

/** What flows against it, with its age: an old margin is not one to run on. Peak and contingency are for the planner to say. */
function loadText(load: LastLoad | null, limitA: number | null, timeZone: string, nowMs: number): string {
  if (load === null) return 'Present flow not known: ask the control room. Without it the splice’s temperature cannot be computed.'
  const atMs = Date.parse(load.taken_at)
  const old = nowMs - atMs >= PRESENT_MS
  const estimated = load.quality === 'estimated' ? ', estimated' : ''
  const at = `Last known flow ${formatCurrent(load.current_a)}${estimated}, ${formatDateTime(atMs, timeZone)}${old ? `, ${durationText(nowMs - atMs)} ago` : ''}`
  const ask = old ? ' Ask the control room for the present flow.' : ''
  if (limitA === null) return `${at}.${ask}`
  const overA = load.current_a - Math.floor(limitA)
  return `${at}: ${formatCurrent(Math.abs(overA))} ${overA > 0 ? 'over' : 'under'} it${old ? ' then' : ''}.${ask}`
}

/** What the planner has not said. */
function Planned({ flows }: { flows: CarryingLimit['flows'] }) {
  const missing = (['expected_peak', 'post_contingency'] as const).filter((flow) => !flows.some((one) => one.flow === flow))
  if (missing.length === 0) return null
  return <p className={css.note}>{missing.map((flow, i) => (i === 0 ? FLOW_WORDS[flow] : FLOW_WORDS[flow].toLowerCase())).join(' and ')} not known: ask the system planner.</p>
}

function Figure({ limit, detail, system }: { limit: CarryingLimit; detail: Shown; system: UnitSystem }) {
  return (
    <>
      <p className={css.carries}>
        <strong>
          <Quantity {...allowedMeasure(limit.line_a)} />
        </strong>{' '}
        per phase
        {limit.mva !== null && detail.voltage_kv !== null && (
          <>
            , <strong>{formatAllowedMva(limit.mva)}</strong> MVA at {formatVoltage(detail.voltage_kv)}
          </>
        )}
      </p>
      {limit.mva === null && <p className={css.note}>MVA not known: the circuit’s voltage is not on record. Ask line engineering.</p>}
      <p className={css.note}>{basisText(limit, detail.subconductors, system)}</p>
      {limit.flows.length > 0 && (
        <ul className={css.sentences}>
          {limit.flows.map(({ flow, current_a: currentA }) => {
            const overA = currentA - Math.floor(limit.line_a)
            return (
              <li key={flow}>
                {FLOW_WORDS[flow]} {formatCurrent(currentA)}: {overA > 0 ? <strong>{formatCurrent(overA)} over it</strong> : `${formatCurrent(-overA)} under it`}.
              </li>
            )
          })}
        </ul>
      )}
    </>
  )
}

function basisText(limit: CarryingLimit, subconductors: number, system: UnitSystem): string {
  const section = `${formatCurrent(limit.section_a)}${limit.section_from === 'rating' ? '' : ' (no rating on record: its conductor in rating weather)'}`
  if (limit.limited_by === 'section') return `It does not limit its section, which may carry ${section}.`
  const { ambient_c: ambientC, wind_m_s: windMS, sun_w_m2: sunWPerM2, elevation_m: elevationM } = limit.weather
  const shares = subconductors > 1 ? `, ${formatAllowed(limit.splice_subconductor_a)} per subconductor with equal shares taken` : ''
  return `Rating weather: air ${formatTemperature(ambientC, system)}, wind ${formatWind(windMS, system)}, sun ${sunWPerM2} W/m², elevation ${formatAlong(elevationM, system)}. `
    + `Splice not over ${formatTemperatureLimit(limit.splice_c, system)} at a ratio of `
    + `${formatRatio(limit.upper_k)}, under which it lies ${formatTimesIn(limit.upper_share)}${shares}. Section: ${section}.`
}
