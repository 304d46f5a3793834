import { ClassMark } from '@/components/map/class-mark'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { CircuitJson } from '@/lib/contract/api'
import { allowedMeasure, formatAllowed, formatAllowedMva, formatCurrent, formatVoltage } from '@/lib/units/format'
import { apparentPowerMva, partLimits, type PartLimit } from './limits'

interface Props {
  circuit: CircuitJson
  onSelectSplice?(id: number): void
}

/** What limits the through line, its splice before its rating; then each tap for itself. Terminal equipment may limit it further. */
export function MayCarry({ circuit, onSelectSplice }: Props) {
  const { main, taps } = partLimits(circuit)
  const limitedTaps = taps.filter(({ splice }) => splice !== null)
  return (
    <>
      {main && <Main of={main} voltageKv={circuit.voltage_kv} onSelect={onSelectSplice} />}
      {limitedTaps.length > 0 && (
        <ul className={css.sentences}>
          {limitedTaps.map((tap) => (
            <li key={tap.section.id}>
              {main ? `${tap.section.name} alone` : tap.section.name}: {tap.splice && <strong>{tap.splice.figure ? formatAllowed(tap.splice.line_a) : 'not known'}</strong>},{' '}
              <By of={tap} onSelect={onSelectSplice} />. {ratingText(tap)}
            </li>
          ))}
        </ul>
      )}
      {(main?.splice || limitedTaps.length > 0) && (
        <p className={css.small}>In rating weather, by the splices that were read. Advice for the rating engineer: continuous, without a time for an emergency. A limit in force stands on the register.</p>
      )}
    </>
  )
}

function Main({ of, voltageKv, onSelect }: { of: PartLimit; voltageKv: number | null; onSelect?(id: number): void }) {
  const { splice, section } = of
  const lineA = splice?.line_a ?? section.rating_a
  if (lineA === null) return <p className={css.note}>What limits it is not known: {section.name === 'main' ? 'its main section' : section.name} has no rating on record. Ask engineering.</p>
  if (splice && !splice.figure) {
    return (
      <p className={css.note}>
        Not known: limited <By of={of} onSelect={onSelect} />, and no figure is drawn from its finding. Ask the rating engineer. {ratingText(of)}
      </p>
    )
  }
  return (
    <>
      <p className={css.lead}>
        <strong>
          <Quantity {...allowedMeasure(lineA)} />
        </strong>{' '}
        per phase
        {voltageKv !== null && `, ${formatAllowedMva(apparentPowerMva(voltageKv, lineA))} MVA at ${formatVoltage(voltageKv)}`}
        , {splice ? <By of={of} onSelect={onSelect} /> : `by the rating of ${section.name === 'main' ? 'its main section' : section.name}; no splice that was read allows less`}
      </p>
      {splice && <p className={css.note}>{ratingText(of)}</p>}
    </>
  )
}

function By({ of: { splice }, onSelect }: { of: PartLimit; onSelect?(id: number): void }) {
  if (!splice) return null
  return (
    <>
      by splice <ClassMark class={splice.class} size={14} />{' '}
      <InPlaceLink href={`/splices/${splice.splice_id}`} onSelect={onSelect && (() => onSelect(splice.splice_id))}>
        {splice.splice}
      </InPlaceLink>
      , {splice.class}
      {splice.held ? ', held' : ''}
    </>
  )
}

const ratingText = ({ section: { name, rating_a: ratingA } }: PartLimit): string =>
  ratingA === null
    ? `The rating of ${name === 'main' ? 'the main section' : 'it'} is not on record.`
    : `${name === 'main' ? 'The main section is' : 'It is'} rated ${formatCurrent(ratingA)} without its splices.`
