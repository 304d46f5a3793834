import type { ReactNode } from 'react'
import { Progress as RadixProgress } from 'radix-ui'
import { cx } from './class-names'
import { Icon } from './icons'
import css from './states.module.css'

/** What this place is for, and the one thing to do first. */
export function EmptyState({
  title,
  children,
  action,
  small,
}: {
  title: string
  children?: ReactNode
  action?: ReactNode
  small?: boolean
}) {
  return (
    <div className={cx(css.state, small && css.small)}>
      <h2>{title}</h2>
      {children && <p>{children}</p>}
      {action && <div className={css.actions}>{action}</div>}
    </div>
  )
}

/** What happened, where, and the remedy. */
export function ErrorState({
  title,
  where,
  remedy,
  action,
  small,
}: {
  title: string
  where?: string
  remedy: ReactNode
  action?: ReactNode
  small?: boolean
}) {
  return (
    <div className={cx(css.state, small && css.small)} role="alert">
      <h2 className={css.error}>
        <Icon name="warning" />
        {title}
      </h2>
      <p>{remedy}</p>
      {where && <p className={css.code}>{where}</p>}
      {action && <div className={css.actions}>{action}</div>}
    </div>
  )
}

/** Structure at once, while data is on its way. */
export function Skeleton({
  width = '100%',
  height = 14,
  className,
}: {
  width?: number | string
  height?: number | string
  className?: string
}) {
  return <span className={cx(css.bone, className)} style={{ width, height }} aria-hidden="true" />
}

/** A figure with its unit in a lighter tone; the words are read together. */
export function Quantity({ value, unit, className }: { value: ReactNode; unit?: string | null; className?: string }) {
  return (
    <span className={cx(css.quantity, className)}>
      {value}
      {unit ? <span className={css.unit}>{unit}</span> : null}
    </span>
  )
}

/** Long work: how far, how fast, what is left. `value` 0 … 1, or null while that is not known. */
export function Progress({ label, value, detail }: { label: string; value: number | null; detail?: ReactNode }) {
  const percent = value === null ? null : Math.round(Math.max(0, Math.min(1, value)) * 100)
  return (
    <div className={css.progress}>
      <RadixProgress.Root className={css.track} value={percent} max={100} aria-label={label}>
        <RadixProgress.Indicator className={css.bar} style={{ width: `${percent ?? 12}%` }} />
      </RadixProgress.Root>
      <div className={css.progressText}>
        <span>
          {label}
          {percent === null ? '' : `, ${percent}%`}
        </span>
        <span>{detail}</span>
      </div>
    </div>
  )
}
