'use client'
import type { ReactNode } from 'react'
import { Popover as RadixPopover, Tooltip as RadixTooltip } from 'radix-ui'
import { cx } from './class-names'
import css from './popover.module.css'

/** Something to choose or read beside its button. */
export function Popover({
  trigger,
  label,
  children,
  align = 'start',
  side = 'bottom',
  open,
  onOpenChange,
  className,
}: {
  trigger: ReactNode
  label: string
  children: ReactNode
  align?: 'start' | 'center' | 'end'
  side?: 'top' | 'bottom' | 'left' | 'right'
  open?: boolean
  onOpenChange?(open: boolean): void
  className?: string
}) {
  return (
    <RadixPopover.Root open={open} onOpenChange={onOpenChange}>
      <RadixPopover.Trigger asChild>{trigger}</RadixPopover.Trigger>
      <RadixPopover.Portal>
        <RadixPopover.Content
          className={cx(css.content, className)}
          aria-label={label}
          align={align}
          side={side}
          sideOffset={4}
          collisionPadding={8}>
          {children}
        </RadixPopover.Content>
      </RadixPopover.Portal>
    </RadixPopover.Root>
  )
}

/** Adds to what is already visible; never the only way to something. */
export function Tooltip({
  text,
  children,
  side = 'top',
}: {
  text: ReactNode
  children: ReactNode
  side?: 'top' | 'bottom' | 'left' | 'right'
}) {
  return (
    <RadixTooltip.Root>
      <RadixTooltip.Trigger asChild>{children}</RadixTooltip.Trigger>
      <RadixTooltip.Portal>
        <RadixTooltip.Content className={css.tip} side={side} sideOffset={4} collisionPadding={8}>
          {text}
        </RadixTooltip.Content>
      </RadixTooltip.Portal>
    </RadixTooltip.Root>
  )
}
