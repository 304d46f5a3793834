import type { ExpressionSpecification } from 'maplibre-gl'

type Value = string | number | ExpressionSpecification

/** Straight between stops: zoom, value, zoom, value … */
export const byZoom = (...stops: Value[]): ExpressionSpecification =>
  ['interpolate', ['linear'], ['zoom'], ...stops] as unknown as ExpressionSpecification

/** Ground sizes double with each zoom. */
export const byScale = (...stops: Value[]): ExpressionSpecification =>
  ['interpolate', ['exponential', 2], ['zoom'], ...stops] as unknown as ExpressionSpecification

export const match = (input: Value, cases: Record<string, Value>, otherwise: Value): ExpressionSpecification =>
  ['match', input, ...Object.entries(cases).flat(), otherwise] as unknown as ExpressionSpecification

/** Widths grow with the voltage: at 69, 230 and 765 kV; a circuit without voltage counts as 100 kV. */
export const byVoltage = (at69: number, at230: number, at765: number, more = 0): ExpressionSpecification =>
  ['interpolate', ['linear'], ['coalesce', ['get', 'kv'], 100], 69, at69 + more, 230, at230 + more, 765, at765 + more]
