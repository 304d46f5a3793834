'use client'
import { memo, type KeyboardEvent } from 'react'
import { ClassMark } from '@/components/map/class-mark'
import { setHovered, unhover, useHovered } from '@/components/map/hovered'
import type { Finding } from '@/components/circuit/coverage'
import { cx } from '@/components/ui/class-names'
import type { Scale } from './axis'
import type { Mark } from './marks'
import type { AxisSplice, SurveyRun } from './model'
import { markLabel, type StripWords } from './words'
import css from './strip.module.css'

const MARK_PX = 15
const SURVEY_PX = 4

/** Ids of the patterns: what is old or proves nothing differs in form, because paper and some eyes lose the tint. */
export type Patterns = Record<'old' | 'inconclusive', string>

export function findingPaint(finding: Finding, patterns: Patterns) {
  if (finding === 'never') return { className: css.never }
  return finding === 'recent' || finding === 'older' ? { className: css[finding] } : { fill: `url(#${patterns[finding]})` }
}

/** What was looked at along a lane, as the circuit's sheet draws it: solid is conclusive, hatched proves nothing, empty was never looked at; half as high where only finds were written down. */
export function Survey({ runs, scale, yPx, patterns }: { runs: readonly SurveyRun[]; scale: Scale; yPx: number; patterns: Patterns }) {
  return runs.map((run) => {
    const [x1, x2] = [Math.max(scale.fromPx, scale.x(run.fromM)), Math.min(scale.toPx, scale.x(run.toM))]
    if (x2 <= x1) return null
    const lowPx = run.exceptionsOnly ? SURVEY_PX / 2 : 0
    return <rect key={run.fromM} x={x1} width={x2 - x1} y={yPx + lowPx} height={SURVEY_PX - lowPx} {...findingPaint(run.finding, patterns)} />
  })
}

/** Where the list's filter leaves splices out: that something hangs there, and not how it is. */
export function LeftOutTicks({ atM, scale, yPx }: { atM: readonly number[]; scale: Scale; yPx: number }) {
  const places = new Set(atM.map((m) => Math.round(scale.x(m))).filter((x) => x >= scale.fromPx && x <= scale.toPx))
  return [...places].map((x) => <rect key={x} className={css.leftOutTick} x={x} y={yPx - 3} width={1} height={7} />)
}

export interface MarksProps {
  marks: readonly Mark<AxisSplice>[]
  scale: Scale
  yPx: number
  selectedId: number | null
  /** The one that Tab reaches. */
  stopId: number | null
  words: StripWords
  onPick(splice: AxisSplice): void
  onFocus(splice: AxisSplice): void
  onKey(e: KeyboardEvent, splice: AxisSplice): void
}

export const Marks = memo(function Marks({ marks, scale, yPx, selectedId, stopId, words, onPick, onFocus, onKey }: MarksProps) {
  const hoveredId = useHovered()?.id ?? null
  return marks.map(({ splice, xPx, behind }) => {
    const truePx = scale.x(splice.axisM)
    const stands = (id: number | null) => id !== null && (splice.id === id || behind.some((one) => one.id === id))
    return (
      <g
        key={splice.id}
        data-splice={splice.id}
        role="button"
        tabIndex={splice.id === stopId ? 0 : -1}
        aria-label={markLabel(splice, behind.length, words)}
        aria-pressed={splice.id === selectedId}
        className={cx(css.mark, stands(hoveredId) && css.pointed, stands(selectedId) && css.selected)}
        transform={`translate(${xPx.toFixed(1)} ${yPx})`}
        onClick={() => onPick(splice)}
        onFocus={() => onFocus(splice)}
        onKeyDown={(e) => onKey(e, splice)}
        onPointerEnter={() => setHovered({ id: splice.id, lon: splice.lon, lat: splice.lat, by: 'strip' })}
        onPointerLeave={() => unhover('strip')}>
        {Math.abs(truePx - xPx) > 2 && <line className={css.lead} x1={0} x2={truePx - xPx} y1={7} y2={12} />}
        <circle className={css.halo} r={8.5} />
        <circle className={css.ring} r={9.5} />
        <g transform={`translate(${-MARK_PX / 2} ${-MARK_PX / 2})`}><ClassMark class={splice.class} size={MARK_PX} /></g>
        {behind.length > 0 && <text className={css.count} y={15}>+{behind.length}</text>}
      </g>
    )
  })
})
