import type { PointToPlace } from '@/lib/geo'
import type { ReadingRecord } from '@/lib/intake'
import type { EvidenceRow } from '@/lib/store/evidence'

/** A few words fill most columns of a file: each is kept once, numbered, and none keeps the text of the file alive that it was cut from. */
class Words {
  private readonly numbers = new Map<string, number>()
  private readonly texts: string[] = ['']

  number(text: string): number {
    const known = this.numbers.get(text)
    if (known !== undefined) return known
    const own = Buffer.from(text, 'utf8').toString('utf8')
    const number = this.texts.length
    this.texts.push(own)
    this.numbers.set(own, number)
    return number
  }

  /** 0 is not known. */
  text(number: number): string | undefined {
    return number === 0 ? undefined : this.texts[number]
  }
}

const PIECE_BITS = 13
const PIECE = 1 << PIECE_BITS

/** One number per reading, in pieces that are never copied; a piece takes no room until some reading fills it. */
class Column<T extends Float64Array | Int32Array> {
  private readonly pieces: (T | undefined)[] = []

  constructor(private readonly make: (length: number) => T) {}

  set(index: number, value: number): void {
    const piece = this.pieces[index >>> PIECE_BITS] ??= this.make(PIECE)
    piece[index & (PIECE - 1)] = value
  }

  at(index: number): number | undefined {
    return this.pieces[index >>> PIECE_BITS]?.[index & (PIECE - 1)]
  }
}

class NumberColumn extends Column<Float64Array> {
  constructor() {
    super((length) => new Float64Array(length).fill(NaN))
  }

  get(index: number): number | null {
    const value = this.at(index)
    return value === undefined || Number.isNaN(value) ? null : value
  }
}

/** Numbers of words and flags; 0 is none. */
class WordColumn extends Column<Int32Array> {
  constructor() {
    super((length) => new Int32Array(length))
  }

  get(index: number): number {
    return this.at(index) ?? 0
  }
}

type NumberKey = { [K in keyof ReadingRecord]: ReadingRecord[K] extends number | null ? K : never }[keyof ReadingRecord]
type TextKey = { [K in keyof ReadingRecord]: ReadingRecord[K] extends string | null ? K : never }[keyof ReadingRecord]

const NUMBERS = [
  'lon', 'lat', 'sigmaM', 'offsetFromStructureM', 'spanFraction', 'sideAUohm', 'sideBUohm', 'conductorUohm', 'conductorBUohm', 'electrodeSpanM',
  'conductorSpanM', 'barrelElectrodeM', 'repeatNo', 'lineCurrentA', 'current30minA', 'spliceTempC', 'conductorTempC', 'ambientC', 'windMS', 'emissivity',
  'reflectedC', 'distanceM', 'viewAngleDeg', 'ifovMrad',
] as const satisfies readonly NumberKey[]

const TEXTS = [
  'kind', 'positionOf', 'platform', 'crew', 'instrument', 'circuitLabel', 'sectionLabel', 'structureBack', 'structureAhead', 'phase', 'position', 'circuitSide',
  'subconductor', 'spliceLabel', 'photo', 'testCurrent', 'referenceKind', 'sun', 'band', 'conductorUnusable',
] as const satisfies readonly TextKey[]

const columnsOf = <K extends string, C>(keys: readonly K[], make: () => C): Readonly<Record<K, C>> =>
  Object.fromEntries(keys.map((key) => [key, make()])) as Record<K, C>

/**
 * What stays of readings once they are written: what placing and assessing need, in columns, so that an import of any length fits.
 * A reading becomes an object only while it is looked at.
 */
export class ReadingColumns {
  count = 0
  private readonly words = new Words()
  private readonly numbers = columnsOf(NUMBERS, () => new NumberColumn())
  private readonly texts = columnsOf(TEXTS, () => new WordColumn())
  private readonly numberList = NUMBERS.map((key) => this.numbers[key])
  private readonly textList = TEXTS.map((key) => this.texts[key])
  private readonly ids = new WordColumn()
  private readonly rows = new WordColumn()
  private readonly survey = new WordColumn()
  private readonly surveyId = new WordColumn()
  private readonly takenAtMs = new NumberColumn()
  private readonly rain = new NumberColumn()
  private readonly afterRepair = new WordColumn()
  private readonly findings = new WordColumn()

  /** Returns the reading's index. */
  add(r: ReadingRecord, id: number, survey: { id: number; name: string }): number {
    const index = this.count++
    this.ids.set(index, id)
    this.rows.set(index, r.rowNo)
    this.survey.set(index, this.words.number(survey.name))
    this.surveyId.set(index, survey.id)
    for (let i = 0; i < NUMBERS.length; i++) {
      const value = r[NUMBERS[i]!]
      if (value !== null) this.numberList[i]!.set(index, value)
    }
    for (let i = 0; i < TEXTS.length; i++) {
      const text = r[TEXTS[i]!]
      if (text !== null) this.textList[i]!.set(index, this.words.number(text))
    }
    if (r.takenAt) this.takenAtMs.set(index, r.takenAt.getTime())
    if (r.rain1h !== null) this.rain.set(index, r.rain1h ? 1 : 0)
    if (r.afterRepair) this.afterRepair.set(index, 1)
    if (r.findings.length > 0) this.findings.set(index, this.words.number(r.findings.join(';')))
    return index
  }

  id(index: number): number {
    return this.ids.get(index)
  }

  /** Its row in the file. */
  rowNo(index: number): number {
    return this.rows.get(index)
  }

  /** The section that the reading itself names. */
  section(index: number): string | undefined {
    return this.text('sectionLabel', index)
  }

  /** The circuit that the reading itself names. */
  circuit(index: number): string | undefined {
    return this.text('circuitLabel', index)
  }

  /** What a look at a span was: how, when (null: not known) and in which survey. */
  look(index: number): { method: string; takenAtMs: number | null; surveyId: number } {
    return { method: this.text('kind', index) ?? '', takenAtMs: this.takenAtMs.get(index), surveyId: this.surveyId.get(index) }
  }

  /** The reading as placing takes it; absent fields are left out. */
  point(index: number): PointToPlace {
    const point: PointToPlace = {
      index, sigmaM: this.numbers.sigmaM.get(index) ?? 0, positionOf: this.text('positionOf', index) === 'platform' ? 'platform' : 'target',
      survey: this.words.text(this.survey.get(index)),
    }
    for (const key of ['lon', 'lat', 'offsetFromStructureM', 'spanFraction'] as const) {
      const value = this.numbers[key].get(index)
      if (value !== null) point[key] = value
    }
    const takenAtMs = this.takenAtMs.get(index)
    if (takenAtMs !== null) point.takenAtMs = takenAtMs
    for (const [field, key] of POINT_TEXTS) {
      const text = this.text(key, index)
      if (text !== undefined) point[field] = text
    }
    return point
  }

  /** The reading as evidence of a splice, as the store would read it back. */
  evidence(index: number): Omit<EvidenceRow, 'splice_id'> {
    const { numbers: n } = this
    const takenAtMs = this.takenAtMs.get(index)
    const rain = this.rain.get(index)
    const findings = this.words.text(this.findings.get(index))
    const text = <T extends string | null>(key: (typeof TEXTS)[number]): T => (this.text(key, index) ?? null) as T
    return {
      id: this.id(index), kind: text('kind'), taken_at: takenAtMs === null ? null : new Date(takenAtMs),
      survey: this.words.text(this.survey.get(index)) ?? '', instrument: text('instrument'), after_repair: this.afterRepair.get(index) === 1,
      structure_back: text('structureBack'), structure_ahead: text('structureAhead'), side_a_uohm: n.sideAUohm.get(index), side_b_uohm: n.sideBUohm.get(index),
      conductor_uohm: n.conductorUohm.get(index), conductor_b_uohm: n.conductorBUohm.get(index), conductor_unusable: text('conductorUnusable'), electrode_span_m: n.electrodeSpanM.get(index),
      conductor_span_m: n.conductorSpanM.get(index), barrel_electrode_m: n.barrelElectrodeM.get(index), repeat_no: n.repeatNo.get(index),
      test_current: text('testCurrent'), line_current_a: n.lineCurrentA.get(index), current_30min_a: n.current30minA.get(index),
      splice_temp_c: n.spliceTempC.get(index), conductor_temp_c: n.conductorTempC.get(index), reference_kind: text('referenceKind'),
      ambient_c: n.ambientC.get(index), wind_m_s: n.windMS.get(index), sun: text('sun'), rain_1h: rain === null ? null : rain === 1,
      emissivity: n.emissivity.get(index), reflected_c: n.reflectedC.get(index), distance_m: n.distanceM.get(index),
      view_angle_deg: n.viewAngleDeg.get(index), ifov_mrad: n.ifovMrad.get(index), band: text('band'),
      findings: (findings?.split(';') ?? []) as EvidenceRow['findings'],
    }
  }

  /** Indexes of readings that may be one track, in groups of about `together`: those of one survey, crew and instrument stay in one group. */
  passes(together: number): number[][] {
    const passes = new Map<string, number[]>()
    for (let index = 0; index < this.count; index++) {
      const key = `${this.survey.get(index)} ${this.texts.crew.get(index)} ${this.texts.instrument.get(index)}`
      const pass = passes.get(key)
      if (pass) pass.push(index)
      else passes.set(key, [index])
    }
    const groups: number[][] = []
    for (const pass of passes.values()) {
      const last = groups.at(-1)
      if (last && last.length + pass.length <= together) for (const index of pass) last.push(index)
      else groups.push(pass)
    }
    return groups
  }

  private text(key: (typeof TEXTS)[number], index: number): string | undefined {
    return this.words.text(this.texts[key].get(index))
  }
}

const POINT_TEXTS = [
  ['platform', 'platform'], ['crew', 'crew'], ['instrument', 'instrument'], ['circuit', 'circuitLabel'], ['section', 'sectionLabel'],
  ['structureBack', 'structureBack'], ['structureAhead', 'structureAhead'], ['phase', 'phase'], ['position', 'position'],
  ['circuitSide', 'circuitSide'], ['subconductor', 'subconductor'], ['spliceLabel', 'spliceLabel'], ['photo', 'photo'],
] as const satisfies readonly (readonly [keyof PointToPlace, (typeof TEXTS)[number]])[]
