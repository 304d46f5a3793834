import type { ReactNode } from 'react'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import { cx } from '@/components/ui/class-names'
import { ClassMark } from './class-mark'
import { CLASS_WORD, WORST_FIRST } from './class-colours'
import css from './map.module.css'
import type { Hover } from './use-pointer'

const text = (value: unknown): string => (typeof value === 'string' || typeof value === 'number' ? String(value) : '')
const isClass = (value: unknown): value is ConditionClass => CONDITION_CLASSES.some((c) => c === value)

/** What the pointer is on, in words. */
export function HoverLabel({ hover, spanWords }: { hover: Hover; spanWords?: (id: number) => ReactNode }) {
  const { picked, x, y } = hover
  const p = picked.feature.properties
  return (
    <div className={cx(css.hover, picked.kind === 'span' && css.wide)} style={{ transform: `translate(${Math.round(x + 14)}px, ${Math.round(y + 14)}px)` }} aria-hidden="true">
      {picked.kind === 'splice' && isClass(p.class) && (
        <><ClassMark class={p.class} size={14} /><b>{text(p.name)}</b> {CLASS_WORD[p.class]}{p.phase ? `, phase ${text(p.phase)}` : ''}</>
      )}
      {picked.kind === 'unsettled' && isClass(p.class) && <><ClassMark class={p.class} size={14} /><b>{CLASS_WORD[p.class]} reading</b> place not settled</>}
      {picked.kind === 'cluster' && (
        <>
          <b>{text(p.total)} splices</b>
          {WORST_FIRST.filter((cls) => Number(p[cls]) > 0).map((cls) => (
            <span key={cls}><ClassMark class={cls} size={12} />{text(p[cls])}</span>
          ))}
        </>
      )}
      {picked.kind === 'span' && spanWords?.(picked.id)}
      {picked.kind === 'track' && <><b>{text(p.crew) || text(p.survey)}</b>{[p.crew ? text(p.survey) : '', text(p.instrument), `${text(p.readings)} readings`].filter(Boolean).join(', ')}</>}
      {picked.kind === 'circuit' && <><b>{text(p.name)}</b>{p.kv ? ` ${text(p.kv)} kV` : ''}</>}
    </div>
  )
}
