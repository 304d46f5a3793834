/** A small deterministic generator (mulberry32): the demo must be the same on every machine. */
export class Random {
  private state: number
  constructor(seed: number) { this.state = seed >>> 0 }

  /** Uniform in [0, 1). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0
    let t = this.state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }

  between(low: number, high: number): number { return low + (high - low) * this.next() }
  whole(low: number, high: number): number { return Math.floor(this.between(low, high + 1)) }
  chance(p: number): boolean { return this.next() < p }
  pick<T>(items: readonly T[]): T { return items[Math.floor(this.next() * items.length)] as T }

  /** Normal by Box and Muller. */
  normal(mean = 0, sd = 1): number {
    return mean + sd * Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next())
  }
}
