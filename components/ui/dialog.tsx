'use client'
import type { ReactNode } from 'react'
import { Dialog as RadixDialog } from 'radix-ui'
import { IconButton } from './button'
import { cx } from './class-names'
import css from './dialog.module.css'

/** For what cannot be undone, or needs more than one field. `trigger` is optional where the opener sits elsewhere. */
export function Dialog({ open, onOpenChange, trigger, title, description, actions, wide, children }: {
  open?: boolean
  onOpenChange?(open: boolean): void
  trigger?: ReactNode
  title: string
  description?: ReactNode
  actions?: ReactNode
  wide?: boolean
  children?: ReactNode
}) {
  return (
    <RadixDialog.Root open={open} onOpenChange={onOpenChange}>
      {trigger && <RadixDialog.Trigger asChild>{trigger}</RadixDialog.Trigger>}
      <RadixDialog.Portal>
        <RadixDialog.Overlay className={css.scrim} />
        <RadixDialog.Content className={cx(css.dialog, wide && css.wide)} {...(description ? {} : { 'aria-describedby': undefined })}>
          <div className={css.head}>
            <div>
              <RadixDialog.Title className={css.title}>{title}</RadixDialog.Title>
              {description && <RadixDialog.Description className={css.description}>{description}</RadixDialog.Description>}
            </div>
            <RadixDialog.Close asChild><IconButton icon="close" label="Close" size="small" /></RadixDialog.Close>
          </div>
          <div className={css.body}>{children}</div>
          {actions && <div className={css.foot}>{actions}</div>}
        </RadixDialog.Content>
      </RadixDialog.Portal>
    </RadixDialog.Root>
  )
}

/** Closes the dialog it stands in. */
export function DialogClose({ children }: { children: ReactNode }) {
  return <RadixDialog.Close asChild>{children}</RadixDialog.Close>
}
