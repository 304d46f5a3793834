import { detectHeaderUnit } from '@/lib/units/detect'
import { CellReport, shown } from '../cells/cell-report'
import type { ReaderSetting } from '../cells/reader'
import { ZoneClock } from '../cells/zone'
import { RESISTANCES } from '../kinds/resistances'
import { guessMapping } from '../mapping/guess'
import type { NormaliseContext, RowAlarm } from '../outcome'
import type { ReadingDraft } from '../reading'
import type { ColumnMapping, Mapping, RawRow } from '../types'
import { alarmOf } from './alarm'
import { planColumns, textOf, valuesOf, type ColumnPlan } from './columns'
import { readingDraft } from './reading'

/** Which of several resistances is the conductor's nobody said: it is taken for the least, as no joint carries better than its own conductor for long. */
const LEAST_COLUMNS = 2
const SIDES: readonly string[] = ['side_a_uohm', 'side_b_uohm']

/**
 * Numbers in ohms that stand in columns which are not read, in a file none of whose resistances is read: one against another, they may be
 * urgent all the same, whatever the file was taken for.
 */
export class UnreadOhms {
  private constructor(
    private readonly ohms: readonly ColumnPlan[], private readonly places: readonly ColumnPlan[], private readonly columns: readonly string[],
    private readonly context: NormaliseContext,
  ) {}

  /** Null where a side is read, or fewer than two columns name an ohm. */
  static of(mapping: Mapping, columns: readonly string[], context: NormaliseContext): UnreadOhms | null {
    if (mapping.columns.some(({ field }) => field !== null && SIDES.includes(field))) return null
    const mapped = new Map(mapping.columns.map((one) => [one.column, one] as const))
    const ohms = columns.flatMap((column) => {
      const field = mapped.get(column)?.field ?? null
      const unit = field === null ? detectHeaderUnit(column, 'resistance') : RESISTANCES.includes(field) ? mapped.get(column)?.unit ?? 'uohm' : null
      return unit === null ? [] : [{ column, unit }]
    })
    if (ohms.length < LEAST_COLUMNS) return null
    const { decimalComma } = mapping
    const dates = { order: mapping.dateOrder ?? context.dateOrder ?? null, zone: new ZoneClock(context.timeZone), zoneName: context.timeZone, nowMs: context.nowMs, assume: () => undefined }
    const setting: ReaderSetting = { dates, decimalComma: decimalComma ?? context.decimalComma, phaseLetters: context.phaseLetters, assume: () => undefined }
    const plans = (chosen: ColumnMapping[]) => planColumns({ kind: 'readings', columns: chosen, decimalComma }, columns, setting).columns
    const places = guessMapping(columns, [], 'readings').columns.filter(({ column, field }) => field !== null && !RESISTANCES.includes(field) && !ohms.some((one) => one.column === column))
    return new UnreadOhms(ohms.flatMap(({ column, unit }) => plans([{ column, field: 'side_a_uohm', unit }])), plans(places), columns, context)
  }

  /** What cannot wait in a row; undefined where nothing is urgent. */
  alarmOf(raw: RawRow, why: string[]): RowAlarm | undefined {
    const values = valuesOf(raw, this.columns)
    const report = new CellReport()
    report.startRow(raw.row, raw.line)
    const found = this.ohms.flatMap((plan) => {
      const uohm = read(plan, values, report)
      return typeof uohm === 'number' ? [{ uohm, column: plan.columns[0]! }] : []
    }).sort((a, b) => b.uohm - a.uohm)
    const [most] = found
    const least = found.at(-1)
    if (!most || !least || found.length < LEAST_COLUMNS) return undefined
    const draft = readingDraft(raw.row, raw.raw)
    const target = draft as unknown as Record<string, unknown>
    for (const plan of this.places) {
      const value = read(plan, values, report)
      if (value !== undefined && value !== null) target[plan.field.key] = value
    }
    const says: ReadingDraft = { ...draft, kind: 'resistance', sideAUohm: most.uohm, conductorUohm: least.uohm }
    const alarm = alarmOf(says, why, this.context.policy, this.context.factsOf)
    if (!alarm) return undefined
    const restsOn = `${figure(most.uohm)} against ${figure(least.uohm)} µΩ stand in '${shown(most.column)}' and '${shown(least.column)}', which are not read`
    return { ...alarm, restsOn, why: [...why, `${restsOn}.`] }
  }
}

function read(plan: ColumnPlan, values: readonly string[], report: CellReport): unknown {
  const text = textOf(plan, values)
  if (text === '') return undefined
  report.startCell(plan.field, plan.columns[0]!)
  return plan.read(text, report)
}

const figure = (uohm: number): string => String(Number(uohm.toPrecision(4)))

/** Of the first rows of a file that is not read at all, those whose numbers cannot wait. */
export function urgentUnread(mapping: Mapping, columns: readonly string[], rows: readonly RawRow[], context: NormaliseContext): RowAlarm[] {
  const ohms = UnreadOhms.of(mapping, columns, context)
  return ohms === null ? [] : rows.flatMap((row) => ohms.alarmOf(row, []) ?? [])
}
