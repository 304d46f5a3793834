'use client'
import { useRouter } from 'next/navigation'
import { memo, useMemo, useState, type KeyboardEvent, type PointerEvent } from 'react'
import Link from 'next/link'
import '@/components/map/class-colours.css'
import { classColourVar } from '@/components/map/class-colours'
import { ClassMark } from '@/components/map/class-mark'
import { alongText, phaseText } from '@/components/splice/position'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { LineSection } from './line-model'
import { plotPaths } from './marks'
import { distanceScale, distanceTicks, labelGroups, namedStructures, PLOT, temperatureScale, temperatureTicks } from './plot-scale'
import { drawnJoints, isBlind, isRead, type ReckonedJoint, type ReckonedSection } from './reckon'
import { useWidth } from './use-width'
import { allowsText, besideText, basisText, degreesText, heatText, sectionText } from './words'
import css from './line-plot.module.css'

const BOTTOM = PLOT.heightPx - PLOT.bottomPx
const LABEL_PX = 17
const NEAR_PX = 24

interface Props {
  of: ReckonedSection
  range: { fromC: number; toC: number }
  /** What a splice is not to pass. */
  limitC: number
  /** Where the section's current comes from. */
  current: string
  /** Says how to read it: once on a page is enough. */
  hint: boolean
}

/** How hot is each splice along the line? Line distance against temperature; its twin is the table of all splices. */
export function LinePlot({ of, range, limitC, current, hint }: Props) {
  const router = useRouter()
  const [system] = useUnitSystem()
  const [box, widthPx] = useWidth<HTMLDivElement>()
  const [chosenId, choose] = useState<number | null>(null)
  const { section, conductorC } = of
  const joints = drawnJoints(of)
  const x = useMemo(() => distanceScale(section.of.length_m, widthPx), [section.of.length_m, widthPx])
  const y = useMemo(() => temperatureScale(range), [range])
  const chosen = joints.find((joint) => joint.of.id === chosenId) ?? null
  const paths = plotPaths(joints.map((joint) => {
    const { of: { class: condition, line_distance_m: atM }, believedC, upperC } = joint
    // It fails and nothing says how hot it is: on the upper edge, and never where a guess would put it.
    if (isBlind(joint)) return { class: condition, x: x(atM), y: y(Infinity), upperY: y(Infinity), beyond: true, unread: false }
    return {
      class: condition, x: x(atM), y: y(believedC ?? Infinity), upperY: y(upperC ?? Infinity), beyond: (upperC ?? Infinity) > range.toC, unread: !isRead(joint),
    }
  }))
  const markY = (joint: ReckonedJoint) => y((isBlind(joint) ? null : isRead(joint) ? joint.believedC : joint.upperC) ?? Infinity)
  const lines = labelGroups([
    { key: 'limit', yPx: y(limitC), text: `splices ${degreesText(limitC, system)}` },
    ...section.of.max_operating_c === null ? [] : [{ key: 'section', yPx: y(section.of.max_operating_c), text: `section at most ${degreesText(section.of.max_operating_c, system)}` }],
    ...conductorC === null ? [] : [{ key: 'conductor', yPx: y(conductorC), text: `conductor ${degreesText(conductorC, system)}` }],
  ], LABEL_PX)
  const step = (by: number) => {
    const at = chosen ? joints.indexOf(chosen) : by > 0 ? -1 : joints.length
    choose(joints[Math.max(0, Math.min(joints.length - 1, at + by))]?.of.id ?? null)
  }
  const onKeyDown = (e: KeyboardEvent) => {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10, Home: -joints.length, End: joints.length }[e.key]
    if (by !== undefined) {
      e.preventDefault()
      step(by)
    } else if (e.key === 'Enter' && chosen) router.push(`/splices/${chosen.of.id}`)
  }
  const nearest = (e: PointerEvent): ReckonedJoint | null => {
    const { left, top } = e.currentTarget.getBoundingClientRect()
    let [found, best]: [ReckonedJoint | null, number] = [null, NEAR_PX]
    for (const joint of joints) {
      const awayPx = Math.hypot(x(joint.of.line_distance_m) - (e.clientX - left), markY(joint) - (e.clientY - top))
      if (awayPx < best) [found, best] = [joint, awayPx]
    }
    return found
  }
  return (
    <figure className={css.plot}>
      <h3>
        {sectionText(section.of)} <small>{current}</small>
      </h3>
      <Readout of={chosen} section={of} hint={hint} />
      <div ref={box} className={css.box}>
        <svg
          className={css.svg}
          viewBox={`0 0 ${widthPx} ${PLOT.heightPx}`}
          role="slider"
          tabIndex={0}
          aria-label={`Splices of ${sectionText(section.of)} along the line: arrow keys go from one to the next, Enter opens its sheet`}
          aria-valuemin={1}
          aria-valuemax={Math.max(1, joints.length)}
          aria-valuenow={chosen ? joints.indexOf(chosen) + 1 : 1}
          aria-valuetext={chosen ? `${chosen.of.splice}, ${chosen.of.class}, ${heatText(chosen, system)}` : `${joints.length} splices; none chosen`}
          onKeyDown={onKeyDown}
          onPointerMove={(e) => {
            const found = nearest(e)
            if (found && found.of.id !== chosenId) choose(found.of.id)
          }}
          onClick={() => {
            if (chosen) router.push(`/splices/${chosen.of.id}`)
          }}>
          <Grid section={section} range={range} widthPx={widthPx} />
          {section.of.max_operating_c !== null && (
            <line x1={PLOT.leftPx} x2={widthPx - PLOT.rightPx} y1={y(section.of.max_operating_c)} y2={y(section.of.max_operating_c)} className={css.most} />
          )}
          <line x1={PLOT.leftPx} x2={widthPx - PLOT.rightPx} y1={y(limitC)} y2={y(limitC)} className={css.limit} />
          {conductorC !== null && <line x1={PLOT.leftPx} x2={widthPx - PLOT.rightPx} y1={y(conductorC)} y2={y(conductorC)} className={css.conductor} />}
          <path d={paths.hatched} className={css.hatched} />
          <path d={paths.faint} className={css.faint} />
          <path d={paths.whiskers} className={css.whisker} />
          {CONDITION_CLASSES.toSorted((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)).map((condition) => (
            <path
              key={condition}
              d={paths.marks[condition]}
              className={MARK_CSS[condition] ?? css.mark}
              style={MARK_CSS[condition] ? { stroke: classColourVar(condition) } : { fill: classColourVar(condition) }}
            />
          ))}
          <path d={paths.signs} style={{ fill: 'var(--on-class-critical)' }} />
          {chosen && <circle cx={x(chosen.of.line_distance_m)} cy={markY(chosen)} r="9" className={css.chosen} />}
          {lines.map(({ yPx, labels }) => (
            <text key={labels[0]?.key} x={widthPx - PLOT.rightPx - 2} y={yPx - 5} textAnchor="end" className={css.lineText}>
              {labels.map(({ key, text }, i) => <tspan key={key} className={key === 'limit' ? css.limitText : undefined}>{i > 0 ? `, ${text}` : text}</tspan>)}
            </text>
          ))}
        </svg>
      </div>
    </figure>
  )
}

/** Drawn by their stroke; the others are filled. */
const MARK_CSS: Partial<Record<ConditionClass, string>> = { sound: css.dot, watch: css.hollow, unknown: css.hollow }

/** Drawn in this order: what is worst lies on top. */
const ORDER = ['sound', 'unknown', 'watch', 'degraded', 'urgent', 'critical']

/** Axes and structures: nothing of them moves with a slider but the ends of the temperature axis. */
const Grid = memo(function Grid({ section, range, widthPx }: { section: LineSection; range: Props['range']; widthPx: number }) {
  const [system] = useUnitSystem()
  const x = distanceScale(section.of.length_m, widthPx)
  const y = temperatureScale(range)
  const { structures } = section.of
  const named = namedStructures(structures, x)
  return (
    <g aria-hidden="true">
      {temperatureTicks(range, system).map(({ c, text }) => (
        <g key={text}>
          <line x1={PLOT.leftPx} x2={widthPx - PLOT.rightPx} y1={y(c)} y2={y(c)} className={css.grid} />
          <text x={PLOT.leftPx - 6} y={y(c) + 4} textAnchor="end">{text}</text>
        </g>
      ))}
      <text x={PLOT.leftPx - 6} y={PLOT.topPx - 14} textAnchor="end" className={css.unit}>{system === 'us' ? '°F' : '°C'}</text>
      <line x1={PLOT.leftPx} x2={widthPx - PLOT.rightPx} y1={BOTTOM} y2={BOTTOM} className={css.base} />
      <path d={structures.map((one) => `M${Math.round(x(one.line_distance_m) * 10) / 10} ${BOTTOM}v4`).join('')} className={css.base} />
      {named.map((one) => (
        <g key={one.line_distance_m}>
          <line x1={x(one.line_distance_m)} x2={x(one.line_distance_m)} y1={BOTTOM} y2={BOTTOM + 7} className={css.base} />
          <text x={x(one.line_distance_m)} y={BOTTOM + 18} textAnchor="middle">{one.structure}</text>
        </g>
      ))}
      {distanceTicks(section.of.length_m, widthPx, system).map(({ m, text }, i) => (
        <text key={text} x={x(m)} y={BOTTOM + 31} textAnchor={i === 0 ? 'start' : 'middle'} className={css.unit}>{i === 0 ? `${text} ${system === 'us' ? 'mi' : 'km'}` : text}</text>
      ))}
    </g>
  )
})

function Readout({ of, section, hint }: { of: ReckonedJoint | null; section: ReckonedSection; hint: boolean }) {
  const [system] = useUnitSystem()
  const letters = usePhaseLetters()
  if (!of) return <p className={css.readout}>{hint && 'Mark: at the ratio believed. Whisker: up to the ratio it is believed to lie under; hatched and without a mark: not read. Point at a splice, or use the arrow keys.'}</p>
  return (
    <p className={`${css.readout} no-print`}>
      <ClassMark class={of.of.class} size={14} /> <Link href={`/splices/${of.of.id}`}>{of.of.splice}</Link>{' '}
      {alongText(of.of, system)}, {phaseText(of.of, letters)}: <strong>{heatText(of, system)}</strong>; {basisText(of)}; allows <strong>{allowsText(of, section)}</strong>{of.of.limit && `, ${besideText(of, section)}`}
    </p>
  )
}
