'use client'
import { Select as RadixSelect } from 'radix-ui'
import { cx } from './class-names'
import { FieldFrame } from './field'
import { Icon } from './icons'
import css from './select.module.css'

export interface SelectOption {
  value: string
  label: string
  detail?: string
  disabled?: boolean
}
export interface SelectGroup {
  label: string
  options: SelectOption[]
}

/** One of a few known values. `options` may be grouped. Values must not be empty strings. */
export function Select({
  label,
  value,
  onValueChange,
  options,
  placeholder = 'Choose',
  hint,
  error,
  hideLabel,
  optional,
  disabled,
  size = 'normal',
  className,
}: {
  label: string
  value: string | undefined
  onValueChange(value: string): void
  options: (SelectOption | SelectGroup)[]
  placeholder?: string
  hint?: string
  error?: string
  hideLabel?: boolean
  optional?: boolean
  disabled?: boolean
  size?: 'normal' | 'small'
  className?: string
}) {
  return (
    <FieldFrame label={label} hint={hint} error={error} hideLabel={hideLabel} optional={optional} className={className}>
      {(a11y) => (
        <RadixSelect.Root value={value ?? ''} onValueChange={onValueChange} disabled={disabled}>
          <RadixSelect.Trigger className={cx(css.trigger, size === 'small' && css.small)} {...a11y}>
            <RadixSelect.Value placeholder={placeholder} />
            <RadixSelect.Icon asChild>
              <Icon name="down" />
            </RadixSelect.Icon>
          </RadixSelect.Trigger>
          <RadixSelect.Portal>
            <RadixSelect.Content className={css.content} position="popper" sideOffset={4} collisionPadding={8}>
              <RadixSelect.Viewport className={css.viewport}>
                {options.map((o) =>
                  'options' in o ? (
                    <RadixSelect.Group key={o.label}>
                      <RadixSelect.Label className={css.group}>{o.label}</RadixSelect.Label>
                      {o.options.map((x) => (
                        <Item key={x.value} option={x} />
                      ))}
                    </RadixSelect.Group>
                  ) : (
                    <Item key={o.value} option={o} />
                  ),
                )}
              </RadixSelect.Viewport>
            </RadixSelect.Content>
          </RadixSelect.Portal>
        </RadixSelect.Root>
      )}
    </FieldFrame>
  )
}

function Item({ option }: { option: SelectOption }) {
  return (
    <RadixSelect.Item value={option.value} disabled={option.disabled} className={css.item}>
      <RadixSelect.ItemText>{option.label}</RadixSelect.ItemText>
      {option.detail && <span className={css.detail}>{option.detail}</span>}
      <RadixSelect.ItemIndicator className={css.tick}>
        <Icon name="check" />
      </RadixSelect.ItemIndicator>
    </RadixSelect.Item>
  )
}
