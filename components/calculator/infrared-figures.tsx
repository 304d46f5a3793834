import sheet from '@/components/ui/sheet.module.css'
import type { InfraredNote } from '@/lib/condition'
import { BRIGHT_EMISSIVITY, WEATHERED_EMISSIVITY } from '@/lib/condition/infrared-k'
import { formatRatio, formatTemperature, formatTemperatureDifference, formatWind, type UnitSystem } from '@/lib/units/format'
import type { TrueTemperatures } from './true-temperature'

const NINE_IN_TEN = 1.645

/** What the picture gives in figures, also where it proves nothing. */
export function InfraredFigures({ note, temperatures, system }: { note: InfraredNote; temperatures: TrueTemperatures; system: UnitSystem }) {
  const { k, uLnK = Number.NaN, effectiveWindMS, wouldShowK, neededK, overConductorK } = note
  const counts = note.inconclusive.length === 0
  const band = Math.exp(NINE_IN_TEN * uLnK)
  return (
    <section className={sheet.part}>
      <h2>The picture in figures</h2>
      <dl className={sheet.facts}>
        {temperatures.steps.map((step) => (
          <Row key={step.title} name={step.title.replace('Infrared: true', 'True')} value={formatTemperature(step.result.value, system)} />
        ))}
        {overConductorK !== undefined && <Row name="Over its conductor" value={formatTemperatureDifference(overConductorK, system)} />}
        {effectiveWindMS !== undefined && <Row name="Wind that the conductor shows" value={`${formatWind(effectiveWindMS, system)} across the line`} />}
        {k !== undefined && (
          <Row
            name="Ratio by heat balance"
            value={`${formatRatio(k)}, from ${formatRatio(k / band)} to ${formatRatio(k * band)} by the errors of what was put in${counts ? '' : '; it does not count'}`}
          />
        )}
        {k !== undefined && note.kIfBright !== undefined && note.kIfWeathered !== undefined && (
          <Row
            name="By another emissivity"
            value={`${formatRatio(note.kIfBright)} at ${BRIGHT_EMISSIVITY} (bright), ${formatRatio(note.kIfWeathered)} at ${WEATHERED_EMISSIVITY} (weathered), with the same temperatures`}
          />
        )}
        {wouldShowK !== undefined && neededK !== undefined && (
          <Row
            name="A bad splice would show"
            value={`${formatTemperatureDifference(wouldShowK, system)}; ${formatTemperatureDifference(neededK, system)} are needed to prove anything`}
          />
        )}
      </dl>
    </section>
  )
}

function Row({ name, value }: { name: string; value: string }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </>
  )
}
