import type { UndoReport } from '@/lib/cases/undo-import'
import { formatNumber } from '@/lib/units/format'

const many = (n: number, one: string) => `${formatNumber(n, 0)} ${one}${n === 1 ? '' : 's'}`

/** What taking an import back did, for a terminal. */
export function undoText(importId: number, undone: UndoReport | null): string {
  if (undone === null) return `Import ${importId} was not done yet and is cancelled: nothing of it was stored.`
  const { readings_withdrawn: readings, splices_removed: splices, held } = undone
  const gone = [readings > 0 ? `${many(readings, 'reading')} withdrawn` : '', splices > 0 ? `${many(splices, 'splice')} removed` : ''].filter(Boolean)
  const alarms = [
    undone.removed_critical > 0 ? `${undone.removed_critical} critical` : '', undone.removed_urgent > 0 ? `${undone.removed_urgent} urgent` : '',
  ].filter(Boolean)
  return [
    `Import ${importId} is undone: ${gone.length === 0 ? 'what it added is gone' : gone.join(', ')}.`,
    ...alarms.length > 0 ? [`  Of the splices removed, ${alarms.join(' and ')}: they are shown no more. Calls to the control room stay until it is told.`] : [],
    ...held.length > 0 ? [`  ${many(held.length, 'splice')} ${held.length === 1 ? 'stays' : 'stay'} urgent or critical, held by a reading that was withdrawn: `
      + 'an undo clears no class. A named engineer does, on the sheet and with a reason, or independent good readings.'] : [],
  ].join('\n')
}
