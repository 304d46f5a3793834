import { nameKey } from '../network/labels'
import type { Given } from './given'

/** How many of the splices still open a reading is held against: more on one spot only come from positions that are none. */
const LOOK_BACK = 8

/** Readings that may be of one new splice. */
export interface Cluster {
  members: number[]
  meanM: number
  /** First label and picture that each pass gave it. */
  says: Map<number, { label?: string; photo?: string }>
}

/** New splices of one conductor that a reading farther along the line may still belong to, in the order of the line. */
export class OpenSplices {
  private queue: Cluster[] = []
  private head = 0
  private readonly named = new Map<string, Cluster>()

  /** Takes out what lies behind a line distance. */
  closeBehind(fromM: number): Cluster[] {
    const from = this.head
    while (this.head < this.queue.length && this.queue[this.head]!.meanM < fromM) this.head++
    const closed = this.queue.slice(from, this.head)
    if (this.head === this.queue.length) {
      this.queue = []
      this.head = 0
      this.named.clear()
    }
    return closed
  }

  /**
   * Adds a reading to the splice of its own label or picture, else to the nearest open one that it does not contradict,
   * else opens one. Readings that stand beside another fitting of their pass are marked.
   */
  add({ points, passes }: Given, i: number, atM: number, withinM: number, beside: Uint8Array): void {
    const pass = passes[i]!
    const { spliceLabel, photo } = points[i]!
    const label = spliceLabel === undefined ? undefined : nameKey(spliceLabel)
    const name = label === undefined ? photo && `p${pass}/${photo}` : `l${pass}/${label}`
    const own = name ? this.named.get(name) : undefined
    const home = own && own.meanM >= atM - withinM ? own : this.homeOf(pass, label, photo, atM - withinM) ?? this.open(atM, beside)
    if (this.queue.length - this.head > 1) beside[i] = 1
    home.members.push(i)
    home.meanM += (atM - home.meanM) / home.members.length
    const said = home.says.get(pass) ?? {}
    home.says.set(pass, { label: said.label ?? label, photo: said.photo ?? photo })
    if (name && !this.named.has(name)) this.named.set(name, home)
  }

  private homeOf(pass: number, label: string | undefined, photo: string | undefined, fromM: number): Cluster | undefined {
    for (let at = this.queue.length - 1; at >= Math.max(this.head, this.queue.length - LOOK_BACK); at--) {
      const cluster = this.queue[at]!
      const said = cluster.says.get(pass)
      const other = said?.label !== undefined && label !== undefined
        ? said.label !== label
        : said?.photo !== undefined && photo !== undefined && said.photo !== photo
      if (cluster.meanM >= fromM && !other) return cluster
    }
    return undefined
  }

  private open(atM: number, beside: Uint8Array): Cluster {
    const cluster: Cluster = { members: [], meanM: atM, says: new Map() }
    this.queue.push(cluster)
    if (this.queue.length - this.head === 2) for (const other of this.queue[this.head]!.members) beside[other] = 1
    return cluster
  }
}
