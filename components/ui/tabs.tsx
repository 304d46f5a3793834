'use client'
import type { ReactNode } from 'react'
import { Tabs as RadixTabs, ToggleGroup } from 'radix-ui'
import { cx } from './class-names'
import css from './tabs.module.css'

export interface TabItem {
  value: string
  label: ReactNode
  panel: ReactNode
}

export function Tabs({
  label,
  items,
  value,
  defaultValue,
  onValueChange,
}: {
  label: string
  items: TabItem[]
  value?: string
  defaultValue?: string
  onValueChange?(value: string): void
}) {
  return (
    <RadixTabs.Root value={value} defaultValue={defaultValue ?? items[0]?.value} onValueChange={onValueChange}>
      <RadixTabs.List className={css.list} aria-label={label}>
        {items.map((t) => (
          <RadixTabs.Trigger key={t.value} value={t.value} className={css.tab}>
            {t.label}
          </RadixTabs.Trigger>
        ))}
      </RadixTabs.List>
      {items.map((t) => (
        <RadixTabs.Content key={t.value} value={t.value} className={css.panel}>
          {t.panel}
        </RadixTabs.Content>
      ))}
    </RadixTabs.Root>
  )
}

/** One of two to four, all of them visible. */
export function Segmented<V extends string>({
  label,
  value,
  onValueChange,
  options,
  size = 'normal',
  className,
}: {
  label: string
  value: V
  onValueChange(value: V): void
  /** `name` is read where `label` is a symbol. */
  options: { value: V; label: ReactNode; name?: string }[]
  size?: 'normal' | 'small'
  className?: string
}) {
  return (
    <ToggleGroup.Root
      type="single"
      aria-label={label}
      value={value}
      className={cx(css.segmented, size === 'small' && css.small, className)}
      onValueChange={(v) => {
        const chosen = options.find((o) => o.value === v)
        if (chosen) onValueChange(chosen.value)
      }}>
      {options.map((o) => (
        <ToggleGroup.Item key={o.value} value={o.value} className={css.segment} aria-label={o.name} title={o.name}>
          {o.label}
        </ToggleGroup.Item>
      ))}
    </ToggleGroup.Root>
  )
}
