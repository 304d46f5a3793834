'use client'
import { useEffect, useId, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import { setHovered, unhover, useHovered } from '@/components/map/hovered'
import { ClassMark } from '@/components/map/class-mark'
import { alongText } from '@/components/splice/position'
import { useWidth } from '@/components/loading/use-width'
import { cx } from '@/components/ui/class-names'
import { formatRatio } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { distanceTicks, panned, scaleOf, structureNames, zoomed, type Stretch } from './axis'
import { Brush } from './brush'
import { LeftOutTicks, Marks, Survey, type Patterns } from './lane'
import { marksOf } from './marks'
import { laneName, neighbour, ofSameCircuit, type AxisSplice, type StripModel } from './model'
import { useGestures } from './use-gestures'
import { PLANNED, standingText, type StripWords } from './words'
import css from './strip.module.css'

const HEAD_PX = 33
const ROW_PX = 17
const RIGHT_PX = 16
const LEAST_LANE_PX = 30
/** Of a circuit beside this one: its marks without what was looked at, which its own strip shows. */
const BESIDE_LANE_PX = 27
const BESIDE_MARK_PX = 11
/** Closer together ticks would be a bar: then only those with a name stand. */
const TICKS_APART_PX = 4
const SURVEY_FROM_BOTTOM_PX = 5
const KEY_STEP = 0.15

export interface StripDrawingProps {
  model: StripModel
  stretch: Stretch
  onStretch(stretch: Stretch): void
  selectedId: number | null
  onPick(splice: AxisSplice): void
  words: StripWords
  label: string
  /** What the lanes share, CSS px. */
  lanesPx: number
  narrow: boolean
}

/** The line straightened: one axis of line distance, a lane for each phase, what was looked at below its marks. */
export function StripDrawing({ model, stretch, onStretch, selectedId, onPick, words, label, lanesPx, narrow }: StripDrawingProps) {
  const [width, widthPx] = useWidth<HTMLDivElement>()
  const frame = useRef<HTMLDivElement>(null)
  const id = useId()
  const patterns: Patterns = { old: `${id}-dots`, inconclusive: `${id}-hatch` }
  const [focusId, setFocusId] = useState<number | null>(null)
  const toFocus = useRef<number | null>(null)
  const leftPx = narrow ? 66 : 112
  const scale = useMemo(() => scaleOf(stretch, leftPx, widthPx - RIGHT_PX), [stretch, leftPx, widthPx])
  const dragged = useGestures(frame, { stretch, whole: model.whole, fromPx: scale.fromPx, toPx: scale.toPx, onStretch })
  const ownLanes = model.lanes.filter(({ circuit }) => circuit === null).length
  const lanePx = Math.max(LEAST_LANE_PX, Math.floor(lanesPx / ownLanes))
  const chosen = useMemo(() => new Set([selectedId, focusId].flatMap((one) => one ?? [])), [selectedId, focusId])
  // Own lanes come first.
  const topOf = (i: number) => HEAD_PX + Math.min(i, ownLanes) * lanePx + Math.max(0, i - ownLanes) * BESIDE_LANE_PX
  const marked = useMemo(() => model.lanes.map((lane) => ({ ...lane, marks: marksOf(lane.splices, scale, chosen) })), [model, scale, chosen])
  const lanes = marked.map((lane, i) => ({
    ...lane, topPx: topOf(i), heightPx: topOf(i + 1) - topOf(i), markPx: lane.circuit === null ? Math.round((lanePx - 14) / 2) : BESIDE_MARK_PX,
  }))
  const structures = useMemo(() => structureNames(model.structures, scale), [model, scale])
  const crossings = useMemo(() => structureNames(model.crossings, scale), [model, scale])
  const ticks = distanceTicks(model.laid, stretch, scale, words.system)
  const stops = lanes.flatMap(({ marks }) => marks.map(({ splice }) => splice.id))
  const stopId = [focusId, selectedId].find((one) => one !== null && stops.includes(one)) ?? stops[0] ?? null
  const shownTicks = model.structures.filter(({ m }) => m >= stretch.fromM && m <= stretch.toM)
  const allTicks = shownTicks.length * TICKS_APART_PX < scale.toPx - scale.fromPx
  const bottomPx = topOf(lanes.length)
  const heightPx = bottomPx + 2 * ROW_PX + 4

  useEffect(() => {
    if (toFocus.current === null) return
    // What is stepped to may be drawn only when the strip has moved there.
    const mark = frame.current?.querySelector<SVGGElement>(`[data-splice="${toFocus.current}"]`)
    if (!mark) return
    toFocus.current = null
    mark.focus()
  }, [marked])

  const pan = (share: number) => onStretch(panned(stretch, share * (stretch.toM - stretch.fromM), model.whole))
  const goTo = (splice: AxisSplice | null) => {
    if (!splice) return
    toFocus.current = splice.id
    setFocusId(splice.id)
    if (splice.axisM < stretch.fromM || splice.axisM > stretch.toM) onStretch(panned(stretch, splice.axisM - (stretch.fromM + stretch.toM) / 2, model.whole))
  }
  const onKey = (e: KeyboardEvent) => {
    const middleM = (stretch.fromM + stretch.toM) / 2
    const widthM = stretch.toM - stretch.fromM
    const acts: Record<string, () => void> = {
      ArrowLeft: () => pan(-KEY_STEP), ArrowRight: () => pan(KEY_STEP), PageUp: () => pan(-0.9), PageDown: () => pan(0.9),
      '+': () => onStretch(zoomed(stretch, middleM, 0.67, model.whole)), '=': () => onStretch(zoomed(stretch, middleM, 0.67, model.whole)),
      '-': () => onStretch(zoomed(stretch, middleM, 1.5, model.whole)), 0: () => onStretch(model.whole),
      Home: () => onStretch(panned(stretch, -2 * (model.whole.toM - model.whole.fromM) - widthM, model.whole)),
      End: () => onStretch(panned(stretch, 2 * (model.whole.toM - model.whole.fromM) + widthM, model.whole)),
    }
    const act = e.ctrlKey || e.metaKey || e.altKey ? undefined : acts[e.key]
    if (!act) return
    e.preventDefault()
    act()
  }
  const onMarkKey = (e: KeyboardEvent, splice: AxisSplice) => {
    const step = e.key === 'ArrowLeft' ? -1 : e.key === 'ArrowRight' ? 1 : 0
    if (step !== 0) goTo(neighbour(ofSameCircuit(model, splice.id), splice.id, step))
    else if (e.key === 'Enter' || e.key === ' ') onPick(splice)
    else return
    e.preventDefault()
    e.stopPropagation()
  }
  const onMarkFocus = (splice: AxisSplice) => {
    setFocusId(splice.id)
    setHovered({ id: splice.id, lon: splice.lon, lat: splice.lat, by: 'strip' })
  }

  return (
    <div ref={width}>
      <div
        ref={frame}
        className={css.frame}
        data-beside={ownLanes < model.lanes.length || undefined}
        role="group"
        tabIndex={0}
        aria-label={`${label}. Arrow keys move along the line, plus and minus zoom, Home and End go to its ends, zero shows all of it. Tab goes to the splices: arrow keys step from one to the next, Enter selects.`}
        onKeyDown={onKey}
        onBlur={() => unhover('strip')}>
        <svg className={css.drawing} data-strip={label} width={widthPx} height={heightPx}>
          <defs>
            <pattern id={patterns.old} width="4" height="4" patternUnits="userSpaceOnUse"><circle cx="2" cy="2" r="0.9" className={css.dot} /></pattern>
            <pattern id={patterns.inconclusive} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="1.2" height="5" className={css.hatch} /></pattern>
          </defs>
          <g aria-hidden="true">
            <text x={12} y={12} className={css.quiet}>{narrow ? '' : 'Line distance'}</text>
            <text x={12} y={26} className={css.quiet}>{narrow ? 'STR' : 'Structure'}</text>
            {ticks.map((t) => <text key={t.m} x={t.xPx} y={12} textAnchor={t.xPx > widthPx - 40 ? 'end' : 'middle'}>{t.text}</text>)}
            {ticks.map((t) => <rect key={t.m} className={css.rule} x={Math.round(t.xPx)} y={15} width={1} height={bottomPx - 15} />)}
            {structures.map((s) => <text key={s.m} x={s.xPx} y={26} textAnchor="middle" className={css.quiet}>{s.text}</text>)}
            {(allTicks ? shownTicks : structures).map(({ m }) => <rect key={m} className={css.tick} x={Math.round(scale.x(m))} y={HEAD_PX - 5} width={1} height={4} />)}
            {model.laid.map((s) => {
              const [x1, x2] = [Math.max(scale.fromPx, scale.x(s.fromM)), Math.min(scale.toPx, scale.x(s.toM))]
              return x2 > x1 && <rect key={s.id} className={css.axis} x={x1} width={x2 - x1} y={HEAD_PX - 1} height={1} />
            })}
            {model.laid.slice(1).map((s) => {
              const xPx = scale.x(s.fromM)
              const free = xPx >= scale.fromPx && !ticks.some((t) => t.xPx > xPx - 30 && t.xPx < xPx + s.name.length * 6 + 30)
              return free && <text key={s.id} x={xPx} y={12} className={css.tapName}>{s.name}</text>
            })}
            {lanes.map(({ key, circuit, runs, leftOutM, topPx, heightPx: laneHeightPx, markPx }) => {
              const [name, more] = laneName({ key, circuit }, words.letters, (word) => spell(word, words.system))
              const stretches = circuit === null ? [stretch] : (model.beside.find((other) => other.circuit === circuit)?.stretches ?? [])
              return (
                <g key={`${circuit ?? ''} ${key}`}>
                  <text x={12} y={topPx + markPx + (more && !narrow ? 1 : 4)} className={cx(css.laneName, circuit !== null && css.besideName)}>{name}{more && narrow ? ' ?' : ''}</text>
                  {more && !narrow && <text x={12} y={topPx + markPx + 14} className={css.quiet}>{more}</text>}
                  {stretches.map(({ fromM, toM }) => {
                    const [x1, x2] = [Math.max(scale.fromPx, scale.x(fromM)), Math.min(scale.toPx, scale.x(toM))]
                    return x2 > x1 && <rect key={fromM} className={css.line} x={x1} width={x2 - x1} y={topPx + markPx} height={1} />
                  })}
                  <LeftOutTicks atM={leftOutM} scale={scale} yPx={topPx + markPx} />
                  <Survey runs={runs} scale={scale} yPx={topPx + laneHeightPx - SURVEY_FROM_BOTTOM_PX} patterns={patterns} />
                </g>
              )
            })}
            <rect className={css.rule} x={0} width={widthPx} y={bottomPx + 2} height={1} />
            <text x={12} y={bottomPx + 15} className={css.quiet}>Crossings</text>
            {model.crossings.map(({ m }) => m >= stretch.fromM && m <= stretch.toM && <rect key={m} className={css.tick} x={Math.round(scale.x(m))} y={bottomPx + 2} width={1} height={4} />)}
            {crossings.map((c) => <text key={c.m} x={c.xPx} y={bottomPx + 16} textAnchor="middle">{c.text}</text>)}
            {model.crossings.length === 0 && <text x={leftPx} y={bottomPx + 15} className={css.quiet}>none on record</text>}
            <text x={12} y={bottomPx + ROW_PX + 15} className={css.quiet}>{narrow ? 'Planned' : 'Planned work'}</text>
            <text x={leftPx} y={bottomPx + ROW_PX + 15} className={css.quiet}>{PLANNED}</text>
          </g>
          {lanes.map(({ key, circuit, marks, topPx, markPx }) => (
            <Marks
              key={`${circuit ?? ''} ${key}`} marks={marks} scale={scale} yPx={topPx + markPx} selectedId={selectedId} stopId={stopId} words={words}
              onPick={(splice) => { if (!dragged.current) onPick(splice) }} onFocus={onMarkFocus} onKey={onMarkKey}
            />
          ))}
        </svg>
        <Tip lanes={lanes} words={words} widthPx={widthPx} />
      </div>
      <Brush model={model} stretch={stretch} fromPx={scale.fromPx} toPx={scale.toPx} onStretch={onStretch} />
    </div>
  )
}

/** What is pointed at, in words, wherever it is pointed at. */
function Tip({ lanes, words, widthPx }: {
  lanes: readonly { marks: ReturnType<typeof marksOf<AxisSplice>>; topPx: number }[]; words: StripWords; widthPx: number
}) {
  const hovered = useHovered()
  if (hovered?.by !== 'strip') return null
  for (const { marks, topPx } of lanes) {
    const mark = marks.find(({ splice }) => splice.id === hovered.id)
    if (!mark) continue
    const left = mark.xPx > widthPx / 2
    const { splice } = mark
    return (
      <div className={css.tip} aria-hidden="true" style={{ transform: `translate(${mark.xPx + (left ? -14 : 14)}px, ${topPx - 3}px) translateX(${left ? '-100%' : '0'})` }}>
        <ClassMark class={splice.class} size={14} />
        <b>{splice.splice}</b> {standingText(splice, words.nowMs)}{splice.ratio === null ? '' : ` ${formatRatio(splice.ratio)}`}
        <span>{alongText(splice, words.system)}{mark.behind.length > 0 ? `, and ${mark.behind.length} more here` : ''}</span>
      </div>
    )
  }
  return null
}
