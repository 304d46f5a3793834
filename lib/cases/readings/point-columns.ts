import type { PointToPlace } from '@/lib/geo'
import type { ReadingRecord } from '@/lib/intake'

/** A few words fill most columns of a file: each is kept once, numbered, and none keeps the text of the file alive that it was cut from. */
class Words {
  private readonly numbers = new Map<string, number>()
  private readonly texts: string[] = ['']

  /** 0 is not known. */
  number(text: string | null): number {
    if (text === null) return 0
    const known = this.numbers.get(text)
    if (known !== undefined) return known
    const own = Buffer.from(text, 'utf8').toString('utf8')
    const number = this.texts.length
    this.texts.push(own)
    this.numbers.set(own, number)
    return number
  }

  text(number: number): string | undefined {
    return number === 0 ? undefined : this.texts[number]
  }
}

const TEXTS = [
  ['platform', 'platform'], ['crew', 'crew'], ['instrument', 'instrument'], ['circuit', 'circuitLabel'], ['section', 'sectionLabel'],
  ['structureBack', 'structureBack'], ['structureAhead', 'structureAhead'], ['phase', 'phase'], ['position', 'position'],
  ['circuitSide', 'circuitSide'], ['subconductor', 'subconductor'], ['spliceLabel', 'spliceLabel'], ['photo', 'photo'],
] as const satisfies readonly (readonly [keyof PointToPlace, keyof ReadingRecord])[]

const NUMBERS = ['lon', 'lat', 'sigmaM', 'offsetFromStructureM', 'spanFraction', 'takenAtMs'] as const
/** Per reading: survey, then the texts. */
const WORDS_EACH = TEXTS.length + 1

/** What placing needs to know of readings, in columns: an import of any length fits, and a reading becomes an object only while it is placed. */
export class PointColumns {
  count = 0
  private numbers = new Float64Array(NUMBERS.length * 4096)
  private wordNumbers = new Int32Array(WORDS_EACH * 4096)
  private platformPosition = new Uint8Array(4096)
  private readonly words = new Words()

  /** Returns the reading's index. */
  add(r: ReadingRecord, survey: string): number {
    const index = this.count++
    if (index === this.platformPosition.length) this.grow()
    const n = index * NUMBERS.length
    this.numbers[n] = r.lon ?? NaN
    this.numbers[n + 1] = r.lat ?? NaN
    this.numbers[n + 2] = r.sigmaM ?? 0
    this.numbers[n + 3] = r.offsetFromStructureM ?? NaN
    this.numbers[n + 4] = r.spanFraction ?? NaN
    this.numbers[n + 5] = r.takenAt?.getTime() ?? NaN
    const w = index * WORDS_EACH
    this.wordNumbers[w] = this.words.number(survey)
    for (let i = 0; i < TEXTS.length; i++) this.wordNumbers[w + 1 + i] = this.words.number(r[TEXTS[i]![1]])
    this.platformPosition[index] = r.positionOf === 'platform' ? 1 : 0
    return index
  }

  /** The reading as placing takes it; absent fields are left out. */
  point(index: number): PointToPlace {
    const n = index * NUMBERS.length
    const w = index * WORDS_EACH
    const point: PointToPlace = {
      index, sigmaM: this.numbers[n + 2] ?? 0, positionOf: this.platformPosition[index] === 1 ? 'platform' : 'target',
      survey: this.words.text(this.wordNumbers[w] ?? 0),
    }
    const lon = this.known(n)
    if (lon !== undefined) {
      point.lon = lon
      point.lat = this.known(n + 1)
    }
    const offsetM = this.known(n + 3)
    if (offsetM !== undefined) point.offsetFromStructureM = offsetM
    const fraction = this.known(n + 4)
    if (fraction !== undefined) point.spanFraction = fraction
    const takenAtMs = this.known(n + 5)
    if (takenAtMs !== undefined) point.takenAtMs = takenAtMs
    for (let i = 0; i < TEXTS.length; i++) {
      const number = this.wordNumbers[w + 1 + i] ?? 0
      if (number !== 0) point[TEXTS[i]![0]] = this.words.text(number)
    }
    return point
  }

  /** The circuit that the reading itself names. */
  circuit(index: number): string | undefined {
    return this.words.text(this.wordNumbers[index * WORDS_EACH + 1 + CIRCUIT] ?? 0)
  }

  /** Indexes of readings that may be one track, in groups of about `together` readings: those of one survey, crew and instrument stay in one group. */
  passes(together: number): number[][] {
    const passes = new Map<string, number[]>()
    for (let index = 0; index < this.count; index++) {
      const w = index * WORDS_EACH
      const key = `${this.wordNumbers[w]} ${this.wordNumbers[w + 1 + CREW]} ${this.wordNumbers[w + 1 + INSTRUMENT]}`
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

  private known(at: number): number | undefined {
    const value = this.numbers[at] ?? NaN
    return Number.isNaN(value) ? undefined : value
  }

  private grow(): void {
    const wider = <T extends Float64Array | Int32Array | Uint8Array>(column: T, empty: T): T => {
      empty.set(column)
      return empty
    }
    this.numbers = wider(this.numbers, new Float64Array(this.numbers.length * 2))
    this.wordNumbers = wider(this.wordNumbers, new Int32Array(this.wordNumbers.length * 2))
    this.platformPosition = wider(this.platformPosition, new Uint8Array(this.platformPosition.length * 2))
  }
}

const at = (field: (typeof TEXTS)[number][0]): number => TEXTS.findIndex(([key]) => key === field)
const CREW = at('crew')
const INSTRUMENT = at('instrument')
const CIRCUIT = at('circuit')
