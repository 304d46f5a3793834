'use client'
import { Button } from './button'
import { cx } from './class-names'
import { Checkbox } from './field'
import { Icon } from './icons'
import { Popover } from './popover'
import css from './chooser.module.css'

/** Several of a list, or all of them where none is named; the button says which. */
export function Chooser<V extends string | number>({
  name,
  chosen,
  options,
  onChoose,
  short,
  none = 'all',
  clear = 'All',
}: {
  name: string
  chosen: V[] | undefined
  options: { value: V; label: string }[]
  onChoose(values: V[] | undefined): void
  short(value: V): string
  /** What it means that none is named. */
  none?: string
  /** The button that names none again. */
  clear?: string
}) {
  const toggle = (value: V, on: boolean) => {
    const next = options.map((o) => o.value).filter((v) => (v === value ? on : chosen?.includes(v)))
    onChoose(next.length > 0 ? next : undefined)
  }
  const text = !chosen?.length ? name : chosen.length <= 2 ? chosen.map(short).join(', ') : `${chosen.length} of ${options.length}`
  return (
    <Popover
      label={`${name} filter`}
      trigger={
        <Button
          size="small"
          className={cx(css.chooser, chosen?.length ? css.chosen : undefined)}
          aria-label={`${name}: ${chosen?.length ? text : none}`}>
          <span>{text}</span>
          <Icon name="down" />
        </Button>
      }>
      <div className={css.options} role="group" aria-label={name}>
        {options.map((o) => (
          <Checkbox
            key={o.value}
            label={o.label}
            checked={chosen?.includes(o.value) ?? false}
            onCheckedChange={(on) => toggle(o.value, on)}
          />
        ))}
        {options.length === 0 && <span className="muted">None yet</span>}
        {chosen?.length ? (
          <Button size="small" onClick={() => onChoose(undefined)}>
            {clear}
          </Button>
        ) : null}
      </div>
    </Popover>
  )
}
