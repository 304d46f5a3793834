import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import { ClassMark } from './class-mark'
import { CLASS_WORD, WORST_FIRST } from './class-colours'
import css from './map.module.css'
import type { Hover } from './use-pointer'

const text = (value: unknown): string => (typeof value === 'string' || typeof value === 'number' ? String(value) : '')
const isClass = (value: unknown): value is ConditionClass => CONDITION_CLASSES.some((c) => c === value)

/** What the pointer is on, in words. */
export function HoverLabel({ hover }: { hover: Hover }) {
  const { picked, x, y } = hover
  const p = picked.feature.properties
  return (
    <div className={css.hover} style={{ transform: `translate(${Math.round(x + 14)}px, ${Math.round(y + 14)}px)` }} aria-hidden="true">
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
      {picked.kind === 'circuit' && <><b>{text(p.name)}</b>{p.kv ? ` ${text(p.kv)} kV` : ''}</>}
    </div>
  )
}
