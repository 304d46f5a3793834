import type { ComponentPropsWithRef } from 'react'
import { Slot } from 'radix-ui'
import { cx } from './class-names'
import { Icon, type IconName } from './icons'
import css from './button.module.css'

export interface ButtonProps extends ComponentPropsWithRef<'button'> {
  variant?: 'primary' | 'default' | 'quiet' | 'danger'
  size?: 'normal' | 'small'
  /** Shows work in progress and ignores further presses; the label stays. */
  busy?: boolean
  /** The single child (a link, say) is drawn as the button. */
  asChild?: boolean
}

/** A verb. One primary per view. */
export function Button({
  variant = 'default',
  size = 'normal',
  busy = false,
  asChild = false,
  className,
  children,
  onClick,
  ...rest
}: ButtonProps) {
  const names = cx(css.button, variant !== 'default' && css[variant], size === 'small' && css.small, busy && css.busy, className)
  if (asChild)
    return (
      <Slot.Root className={names} {...rest}>
        {children}
      </Slot.Root>
    )
  return (
    <button type="button" className={names} aria-disabled={busy || undefined} onClick={busy ? undefined : onClick} {...rest}>
      {busy && <span className={css.spinner} aria-hidden="true" />}
      {children}
    </button>
  )
}

export interface IconButtonProps extends Omit<ComponentPropsWithRef<'button'>, 'children'> {
  icon: IconName
  /** Read by screen readers and shown on hover. */
  label: string
  variant?: ButtonProps['variant']
  size?: ButtonProps['size']
}

export function IconButton({ icon, label, variant = 'quiet', size = 'normal', className, ...rest }: IconButtonProps) {
  return (
    <button
      type="button"
      aria-label={label}
      title={label}
      className={cx(css.button, css.icon, variant !== 'default' && css[variant], size === 'small' && css.small, className)}
      {...rest}>
      <Icon name={icon} />
    </button>
  )
}
