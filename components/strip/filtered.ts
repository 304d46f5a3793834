import type { AxisSplice, StripModel } from './model'

/** What the list's filter hides of a circuit on the strip. */
export interface HiddenSplices { circuit: string; count: number; critical: number; urgent: number }

/**
 * The strip with what the list's filter leaves: marks, keys, table and rows are made of it, and of what is left out lanes keep the places.
 * Lanes and what was looked at stay. @param keptId a splice that stays whatever the filter says: the one that is selected
 */
export function filtered(model: StripModel, circuit: string, keptId: number | null): { model: StripModel; hidden: HiddenSplices[] } {
  const isShown = (splice: AxisSplice) => splice.in_filter || splice.id === keptId
  const shown = {
    ...model,
    splices: model.splices.filter(isShown),
    beside: model.beside.map((other) => ({ ...other, splices: other.splices.filter(isShown) })),
    lanes: model.lanes.map((lane) => ({
      ...lane, splices: lane.splices.filter(isShown), leftOutM: lane.splices.flatMap((splice) => (isShown(splice) ? [] : [splice.axisM])),
    })),
  }
  const hidden = [{ circuit, splices: model.splices }, ...model.beside].flatMap((of): HiddenSplices[] => {
    const leftOut = of.splices.filter((splice) => !isShown(splice))
    const ofClass = (wanted: AxisSplice['class']) => leftOut.filter(({ class: shownClass }) => shownClass === wanted).length
    return leftOut.length > 0 ? [{ circuit: of.circuit, count: leftOut.length, critical: ofClass('critical'), urgent: ofClass('urgent') }] : []
  })
  return { model: shown, hidden }
}

export const hidesCalling = (hidden: readonly HiddenSplices[]): boolean => hidden.some(({ critical, urgent }) => critical + urgent > 0)

/** 'The filter hides 1 critical, 2 urgent and 9 others on 2310; 240 splices on 2320'; null where it hides nothing. */
export function hiddenText(hidden: readonly HiddenSplices[]): string | null {
  if (hidden.length === 0) return null
  const parts = hidden.map(({ circuit, count, critical, urgent }) => {
    const calling = [critical > 0 && `${critical} critical`, urgent > 0 && `${urgent} urgent`].filter(Boolean).join(', ')
    const others = count - critical - urgent
    const rest = calling ? (others > 0 ? ` and ${others} ${others === 1 ? 'other' : 'others'}` : '') : `${count} ${count === 1 ? 'splice' : 'splices'}`
    return `${calling}${rest} on ${circuit}`
  })
  return `The filter hides ${parts.join('; ')}${hidesCalling(hidden) ? '' : ', none urgent or critical'}`
}
