import { FileRefusal } from '../types'

/** One element of a feature collection, or a root that is a feature or geometry itself. */
export interface JsonElement {
  text: string
  /** Deepest nesting inside it. */
  depth: number
}

/** Longest single feature, characters; beyond it memory would not stay flat. */
const MAX_ELEMENT_CHARS = 32_000_000

/** Longest member beside the features that is looked at (crs, name). */
const MAX_MEMBER_CHARS = 100_000

const QUOTE = 34, BACKSLASH = 92, OPEN_BRACE = 123, CLOSE_BRACE = 125, OPEN_BRACKET = 91, CLOSE_BRACKET = 93, COMMA = 44, COLON = 58

const isSpace = (code: number): boolean => code === 32 || code === 10 || code === 13 || code === 9 || code === 30 || code === 0xfeff

type Place = 'outside' | 'root' | 'features'

/**
 * Cuts the features out of JSON text as it arrives, so that a file of any size needs the memory of one feature.
 * It counts brackets and quotes only; whether a feature is valid is for JSON.parse to say, feature by feature.
 * Several roots one after the other (RFC 8142 and newline-delimited features) are read too.
 */
export class JsonElements {
  /** Text of root members other than features: 'crs' above all. */
  readonly members = new Map<string, string>()
  elementCount = 0

  private text = ''
  private at = 0
  private dropped = 0
  private place: Place = 'outside'
  private depth = 0
  private inString = false
  private stringStart = 0
  private sawRoot = false
  private rootStart = 0
  private rootHasFeatures = false
  private elementStart = -1
  private maxDepth = 0
  private key: string | null = null
  private lastString: string | null = null
  private valueStart = -1

  /** Elements completed by this piece of text. @throws FileRefusal not-json, feature-too-large */
  push(chunk: string): JsonElement[] {
    this.forget()
    this.text += chunk
    const found: JsonElement[] = []
    while (this.at < this.text.length) this.step(found)
    this.checkHeld()
    return found
  }

  /** @throws FileRefusal truncated, empty */
  end(): void {
    if (this.place === 'outside' && this.depth === 0 && !this.inString) {
      if (this.sawRoot) return
      throw new FileRefusal('empty', 'The file holds nothing but blanks.', 'Check the export, then import the file again.')
    }
    const where = this.place === 'features' ? `in or after feature ${this.elementCount + 1}` : 'inside its outermost object'
    throw new FileRefusal(
      'truncated', `The file ends ${where}, at character ${(this.dropped + this.text.length).toLocaleString('en-US')}: it was cut off.`,
      'Copy or export the file again, whole.',
    )
  }

  private step(found: JsonElement[]): void {
    if (this.inString) return this.skipString()
    const code = this.text.charCodeAt(this.at)
    if (code === QUOTE) {
      this.beginElement()
      this.inString = true
      this.stringStart = this.at + 1
    } else if (code === OPEN_BRACE || code === OPEN_BRACKET) this.open(code)
    else if (code === CLOSE_BRACE || code === CLOSE_BRACKET) this.close(found)
    else if (code === COMMA) this.comma(found)
    else if (code === COLON) this.colon()
    else if (!isSpace(code)) this.plain()
    this.at++
  }

  private skipString(): void {
    let from = this.at
    for (;;) {
      const quote = this.text.indexOf('"', from)
      if (quote === -1) {
        this.at = this.text.length
        return
      }
      let slashes = 0
      while (quote - 1 - slashes >= this.stringStart && this.text.charCodeAt(quote - 1 - slashes) === BACKSLASH) slashes++
      from = quote + 1
      if (slashes % 2 === 1) continue
      if (this.place === 'root' && this.depth === 1) this.lastString = this.text.slice(this.stringStart, quote)
      this.inString = false
      this.at = from
      return
    }
  }

  private open(code: number): void {
    if (this.place === 'outside') {
      if (code !== OPEN_BRACE) throw notJson()
      this.place = 'root'
      this.sawRoot = true
      this.rootStart = this.at
      this.rootHasFeatures = false
      this.maxDepth = 0
    } else if (this.place === 'root' && this.depth === 1 && this.key === 'features' && code === OPEN_BRACKET) {
      this.place = 'features'
      this.rootHasFeatures = true
      this.valueStart = -1
    } else this.beginElement()
    this.depth++
    if (this.depth > this.maxDepth) this.maxDepth = this.depth
  }

  private close(found: JsonElement[]): void {
    if (this.place === 'outside') throw notJson()
    if (this.place === 'features' && this.depth === 2) {
      this.finishElement(found, this.at)
      this.place = 'root'
      this.key = null
    } else if (this.place === 'root' && this.depth === 1) {
      this.endMember()
      if (!this.rootHasFeatures) {
        found.push({ text: this.text.slice(this.rootStart, this.at + 1), depth: this.maxDepth })
        this.elementCount++
      }
      this.place = 'outside'
    }
    this.depth--
    if (this.place === 'features' && this.depth === 2) this.finishElement(found, this.at + 1)
  }

  private comma(found: JsonElement[]): void {
    if (this.place === 'features' && this.depth === 2) this.finishElement(found, this.at)
    else if (this.place === 'root' && this.depth === 1) this.endMember()
    else if (this.place === 'outside') throw notJson()
  }

  private colon(): void {
    if (this.place !== 'root' || this.depth !== 1 || this.key !== null) return
    this.key = this.lastString
    this.valueStart = this.at + 1
  }

  private plain(): void {
    if (this.place === 'outside') throw notJson()
    this.beginElement()
  }

  private beginElement(): void {
    if (this.place === 'outside') throw notJson()
    if (this.place !== 'features' || this.depth !== 2 || this.elementStart !== -1) return
    this.elementStart = this.at
    this.maxDepth = 0
  }

  private finishElement(found: JsonElement[], end: number): void {
    if (this.elementStart === -1) return
    found.push({ text: this.text.slice(this.elementStart, end).trimEnd(), depth: this.maxDepth })
    this.elementCount++
    this.elementStart = -1
  }

  private endMember(): void {
    if (this.key !== null && this.valueStart !== -1 && this.at - this.valueStart <= MAX_MEMBER_CHARS) {
      this.members.set(this.key, this.text.slice(this.valueStart, this.at))
    }
    this.key = null
    this.lastString = null
    this.valueStart = -1
  }

  /** Drops the text that nothing points to any more. */
  private forget(): void {
    const held = this.heldFrom()
    if (held === 0) return
    this.text = this.text.slice(held)
    this.dropped += held
    this.at -= held
    this.stringStart -= held
    this.rootStart -= held
    if (this.elementStart !== -1) this.elementStart -= held
    if (this.valueStart !== -1) this.valueStart -= held
  }

  private heldFrom(): number {
    if (this.place === 'root' && !this.rootHasFeatures) return this.rootStart
    if (this.elementStart !== -1) return this.elementStart
    return this.place === 'root' && this.valueStart !== -1 ? this.valueStart : this.inString ? this.stringStart : this.at
  }

  private checkHeld(): void {
    if (this.text.length - this.heldFrom() <= MAX_ELEMENT_CHARS) return
    throw new FileRefusal(
      'feature-too-large',
      `Feature ${this.elementCount + 1} is longer than ${(MAX_ELEMENT_CHARS / 1e6).toLocaleString('en-US')} million characters.`,
      'Split the feature, or export the file as a FeatureCollection of smaller ones.',
    )
  }
}

const notJson = (): FileRefusal =>
  new FileRefusal(
    'not-json', 'The file is not GeoJSON: it does not consist of objects in braces.', 'Export it as GeoJSON (RFC 7946) or CSV.'
  )
