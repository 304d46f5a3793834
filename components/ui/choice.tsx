import { FieldFrame } from './field'
import field from './field.module.css'

/** The browser's own chooser under a label of its own: it needs nothing from a server and suits a thumb. */
export function Choice<V extends string>({ label, value, onValue, options, error, optional }: {
  label: string
  value: V
  onValue(value: V): void
  options: readonly { value: V; label: string }[]
  error?: string
  optional?: boolean
}) {
  return (
    <FieldFrame label={label} error={error} optional={optional}>
      {(a11y) => (
        <select
          className={field.control}
          value={value}
          {...a11y}
          onChange={(e) => {
            const chosen = options.find((o) => o.value === e.target.value)
            if (chosen) onValue(chosen.value)
          }}>
          {options.map((o) => (
            <option key={o.value} value={o.value}>
              {o.label}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  )
}
