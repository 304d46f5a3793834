import type { ComponentPropsWithRef } from 'react'
import { cx } from './class-names'
import { Icon } from './icons'
import css from './native-select.module.css'

/** The browser's own chooser, for tables with a chooser in every row: one list of options each, and it finds by typing. */
export function NativeSelect({
  label,
  quiet,
  className,
  children,
  ...rest
}: { label: string; quiet?: boolean } & ComponentPropsWithRef<'select'>) {
  return (
    <span className={cx(css.wrap, quiet && css.quiet, className)}>
      <select aria-label={label} className={css.select} {...rest}>
        {children}
      </select>
      <Icon name="down" className={css.arrow} />
    </span>
  )
}
