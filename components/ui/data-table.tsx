import type { ComponentPropsWithRef, ReactNode } from 'react'
import { cx } from './class-names'
import { Icon } from './icons'
import css from './data-table.module.css'

export interface DataTableProps extends ComponentPropsWithRef<'table'> {
  caption: string
  inset?: boolean
  /** On paper the first four rows stand for all; the screen has the rest. */
  brief?: boolean
  children: ReactNode
}

/** Thin rules, no boxes. Write thead, tbody and tfoot inside; `className={num}` on figures. */
export function DataTable({
  caption,
  children,
  inset,
  brief,
  className,
  ...rest
}: DataTableProps) {
  return (
    <div className={css.scroll} tabIndex={0} role="region" aria-label={caption}>
      <table className={cx(css.table, inset && css.inset, brief && css.brief, className)} {...rest}>
        <caption className="visually-hidden">{caption}</caption>
        {children}
      </table>
    </div>
  )
}

/** Right-aligned figures. */
export const num = css.num

export type SortDirection = 'ascending' | 'descending'

/** A heading that sorts; the order is read by screen readers too. */
export function SortHead({
  label,
  direction,
  onSort,
  numeric,
  children,
}: {
  label: string
  direction: SortDirection | undefined
  onSort(): void
  numeric?: boolean
  children?: ReactNode
}) {
  return (
    <th scope="col" aria-sort={direction} className={numeric ? css.num : undefined}>
      <button type="button" className={css.sort} onClick={onSort}>
        {children ?? label}
        <Icon name={direction === 'ascending' ? 'up' : 'down'} />
      </button>
    </th>
  )
}
