'use client'
import { useId, type ComponentPropsWithRef, type ReactNode } from 'react'
import { Checkbox as RadixCheckbox } from 'radix-ui'
import { cx } from './class-names'
import { Icon } from './icons'
import css from './field.module.css'

interface FrameProps {
  label: string
  /** Where and how, before anything goes wrong. */
  hint?: ReactNode
  /** What, where, remedy. */
  error?: ReactNode
  optional?: boolean
  /** Keeps the label for screen readers only. */
  hideLabel?: boolean
  className?: string
}

/** Wires label, hint and error to one control; `children` receives the ids. */
export function FieldFrame({
  label,
  hint,
  error,
  optional,
  hideLabel,
  className,
  children,
}: FrameProps & { children(a11y: { id: string; 'aria-describedby'?: string; 'aria-invalid'?: true }): ReactNode }) {
  const id = useId()
  const describedBy = [hint ? `${id}-hint` : '', error ? `${id}-error` : ''].filter(Boolean).join(' ')
  return (
    <div className={cx(css.field, className)}>
      <label htmlFor={id} className={hideLabel ? 'visually-hidden' : css.label}>
        {label}
        {optional && <span className={css.optional}> (optional)</span>}
      </label>
      {children({ id, 'aria-describedby': describedBy || undefined, 'aria-invalid': error ? true : undefined })}
      {hint && (
        <p id={`${id}-hint`} className={css.hint}>
          {hint}
        </p>
      )}
      {error && (
        <p id={`${id}-error`} className={css.error}>
          <Icon name="warning" />
          <span>{error}</span>
        </p>
      )}
    </div>
  )
}

/** One line of text or a number, its unit beside it. */
export function Field({
  label,
  hint,
  error,
  optional,
  hideLabel,
  className,
  unit,
  ...input
}: FrameProps & { unit?: string } & ComponentPropsWithRef<'input'>) {
  return (
    <FieldFrame label={label} hint={hint} error={error} optional={optional} hideLabel={hideLabel} className={className}>
      {(a11y) =>
        unit ? (
          <span className={css.withUnit}>
            <input className={css.control} {...a11y} {...input} />
            <span className={css.unit}>{unit}</span>
          </span>
        ) : (
          <input className={css.control} {...a11y} {...input} />
        )
      }
    </FieldFrame>
  )
}

export function TextArea({
  label,
  hint,
  error,
  optional,
  hideLabel,
  className,
  ...input
}: FrameProps & ComponentPropsWithRef<'textarea'>) {
  return (
    <FieldFrame label={label} hint={hint} error={error} optional={optional} hideLabel={hideLabel} className={className}>
      {(a11y) => <textarea rows={3} className={css.control} {...a11y} {...input} />}
    </FieldFrame>
  )
}

export function Checkbox({
  label,
  checked,
  onCheckedChange,
  disabled,
  className,
}: {
  label: ReactNode
  checked: boolean | 'indeterminate'
  onCheckedChange(checked: boolean): void
  disabled?: boolean
  className?: string
}) {
  const id = useId()
  return (
    <div className={cx(css.check, className)}>
      <RadixCheckbox.Root
        id={id}
        className={css.box}
        checked={checked}
        disabled={disabled}
        onCheckedChange={(c) => onCheckedChange(c === true)}>
        <RadixCheckbox.Indicator>
          <Icon name="check" />
        </RadixCheckbox.Indicator>
      </RadixCheckbox.Root>
      <label htmlFor={id}>{label}</label>
    </div>
  )
}
