import sheet from '@/components/ui/sheet.module.css'
import type { InfraredNote } from '@/lib/condition'
import { BRIGHT_EMISSIVITY, WEATHERED_EMISSIVITY } from '@/lib/condition/infrared-k'
import { formatRatio, formatTemperature, formatTemperatureDifference, formatWind, type UnitSystem } from '@/lib/units/format'

const NINE_IN_TEN = 1.645

/** What the picture gives in figures, also where it proves nothing. */
export function InfraredFigures({ note, system }: { note: InfraredNote; system: UnitSystem }) {
  const { k, uLnK = Number.NaN, effectiveWindMS, wouldShowK, neededK, camera, trueSpliceC, trueConductorC } = note
  const overConductorK = note.trueOverConductorK ?? note.overConductorK
  const counts = note.inconclusive.length === 0
  const band = Math.exp(NINE_IN_TEN * uLnK)
  return (
    <section className={sheet.part}>
      <h2>The picture in figures</h2>
      <dl className={sheet.facts}>
        {trueSpliceC !== undefined && <Row name="True temperature of the splice" value={formatTemperature(trueSpliceC, system)} />}
        {trueConductorC !== undefined && <Row name="True temperature of the conductor" value={formatTemperature(trueConductorC, system)} />}
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
            value={`${formatRatio(note.kIfBright)} at ${BRIGHT_EMISSIVITY} (bright), ${formatRatio(note.kIfWeathered)} at ${WEATHERED_EMISSIVITY} (weathered), ${camera ? 'of the same picture' : 'with the same temperatures'}`}
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
