import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatEdge, formatRatio, formatTemperatureDifference, type UnitSystem } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import { isAtLeast } from '@/lib/condition/within-crimp'
import { readAssessment } from './assessment'
import type { Heat } from './explanation'

interface Props {
  detail: Pick<SpliceDetail, 'ratio' | 'class' | 'held' | 'found_at' | 'outlook' | 'assessment'>
  heat: Heat | null
  edges: number[]
  ownEdge: number | null
  system: UnitSystem
  timeZone: string
}

/** The figure of whatever makes the class: the ratio that was measured, what a picture shows, or none. */
export function BigFigure({ detail, heat, edges, ownEdge, system, timeZone }: Props) {
  const { ratio, held, outlook } = detail
  const own = ownEdge === null ? '' : `; ${detail.class} from ${formatEdge(ownEdge)} on this section`
  const day = (at: string | number | null | undefined) => (at == null ? '' : ` ${formatDate(typeof at === 'number' ? at : Date.parse(at), timeZone)}`)
  const { governingSide, sides = [] } = (held ? null : readAssessment(detail.assessment)) ?? {}
  const atLeast = sides.some((one) => one.side === governingSide && isAtLeast(one))
  if (ratio !== null) return <Figure value={formatRatio(ratio, edges)} words={`times its conductor${atLeast ? ' at least' : ''}, measured${held ? day(detail.found_at) : ''}${own}`} />
  if (held) return null
  if (heat) return <Figure value={formatTemperatureDifference(heat.overConductorK, system)} words={`hotter than its own conductor, infrared${day(heat.takenAtMs)}`} />
  const picture = outlook?.fusion?.taken === 'infrared' ? outlook.fusion.sources.find(({ source }) => source === 'infrared') : undefined
  return picture ? <Figure value={formatRatio(picture.k, edges)} words={`times its conductor, by infrared${day(picture.taken_at)}${own}`} /> : null
}

const Figure = ({ value, words }: { value: string; words: string }) => (
  <p className={css.big}>
    {value}
    <small>{words}</small>
  </p>
)
