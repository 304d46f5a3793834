'use client'
import { useRef, type PointerEvent } from 'react'
import { classColourVar } from '@/components/map/class-colours'
import { scaleOf, within, type Stretch } from './axis'
import { isCalling } from './marks'
import type { StripModel } from './model'
import css from './strip.module.css'

const BRUSH_PX = 18
const GRIP_PX = 7

/** The whole line in small with the stretch in view: dragged by its middle or its ends, or drawn anew beside it. The strip's keys do the same. */
export function Brush({ model, stretch, fromPx, toPx, onStretch }: { model: StripModel; stretch: Stretch; fromPx: number; toPx: number; onStretch(s: Stretch): void }) {
  const scale = scaleOf(model.whole, fromPx, toPx)
  const drag = useRef<{ part: 'from' | 'to' | 'middle' | 'new'; atM: number; start: Stretch } | null>(null)
  const [x1, x2] = [scale.x(stretch.fromM), scale.x(stretch.toM)]
  const metres = (e: PointerEvent<SVGSVGElement>) => scale.m(e.clientX - e.currentTarget.getBoundingClientRect().left)
  const onDown = (e: PointerEvent<SVGSVGElement>) => {
    const atM = metres(e)
    const xPx = scale.x(atM)
    const whole = x2 - x1 >= toPx - fromPx - 2
    const part = whole ? 'new' : Math.abs(xPx - x1) < GRIP_PX ? 'from' : Math.abs(xPx - x2) < GRIP_PX ? 'to' : xPx > x1 && xPx < x2 ? 'middle' : 'new'
    drag.current = { part, atM, start: stretch }
    e.currentTarget.setPointerCapture(e.pointerId)
  }
  const onMove = (e: PointerEvent<SVGSVGElement>) => {
    if (!drag.current) return
    const { part, atM, start } = drag.current
    const nowM = metres(e)
    if (part === 'middle') return onStretch(within({ fromM: start.fromM + nowM - atM, toM: start.toM + nowM - atM }, model.whole))
    const fixedM = part === 'from' ? start.toM : part === 'to' ? start.fromM : atM
    if (Math.abs(scale.x(nowM) - scale.x(fixedM)) >= 3) onStretch(within({ fromM: Math.min(fixedM, nowM), toM: Math.max(fixedM, nowM) }, model.whole))
  }
  return (
    <svg
      className={css.brush} width={toPx + 16} height={BRUSH_PX} aria-hidden="true"
      onPointerDown={onDown} onPointerMove={onMove} onPointerUp={() => { drag.current = null }} onPointerCancel={() => { drag.current = null }}
      onDoubleClick={() => onStretch(model.whole)}>
      {model.laid.map((s) => <rect key={s.id} className={css.brushLine} x={scale.x(s.fromM)} width={Math.max(1, scale.x(s.toM) - scale.x(s.fromM))} y={8.5} height={1} />)}
      {model.splices.map((s) => (isCalling(s) ? null : <rect key={s.id} className={css.brushSplice} x={scale.x(s.axisM)} width={1} y={6} height={6} />))}
      {model.splices.map((s) => isCalling(s) && <rect key={s.id} x={scale.x(s.axisM) - 1} width={2.5} y={2} height={14} style={{ fill: classColourVar(s.class) }} />)}
      <rect className={css.brushWindow} x={x1} y={0.5} width={Math.max(2, x2 - x1)} height={BRUSH_PX - 1} />
      {[x1, x2].map((x, i) => <rect key={i} className={css.brushGrip} x={x - 1.5} y={5} width={3} height={8} />)}
    </svg>
  )
}
