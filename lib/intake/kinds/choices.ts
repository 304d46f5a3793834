import type { Finding, SpliceKind } from '@/lib/condition/types'
import type { Platform } from '../reading'
import type { CrossingKind, LoadQuality } from '../records'

type Choices<Word extends string> = Readonly<Record<Word, readonly string[]>>

export const POSITION_CHOICES: Choices<'top' | 'middle' | 'bottom' | 'left' | 'right' | 'centre'> = {
  top: ['upper', 'high'],
  middle: ['mid'],
  bottom: ['lower', 'low', 'btm'],
  left: ['lh', 'left hand'],
  right: ['rh', 'right hand'],
  centre: ['center', 'ctr'],
}

export const CIRCUIT_SIDE_CHOICES: Choices<'left' | 'right' | 'north' | 'south' | 'east' | 'west'> = {
  left: ['l', 'lh', 'left hand', 'left circuit'],
  right: ['r', 'rh', 'right hand', 'right circuit'],
  north: ['n'],
  south: ['s'],
  east: ['e'],
  west: ['w'],
}

export const PLATFORM_CHOICES: Choices<Platform> = {
  ground: ['foot', 'on foot', 'ground patrol', 'patrol', 'walking', 'vehicle', 'truck'],
  bucket: ['bucket truck', 'lift', 'aerial lift', 'boom'],
  ladder: ['hook ladder'],
  line_platform: ['line cart', 'cart', 'line trolley', 'platform'],
  line_robot: ['robot', 'crawler'],
  uncrewed: ['drone', 'uav', 'uas', 'unmanned', 'uncrewed aircraft', 'unmanned aircraft'],
  helicopter: ['heli', 'helo', 'copter', 'aircraft', 'aerial'],
}

export const FINDING_CHOICES: Choices<Finding> = {
  none: ['no finding', 'no findings', 'no exception', 'ok', 'nil'],
  discolouration: ['discoloration', 'discoloured', 'discolored'],
  bulging: ['bulge', 'bulged'],
  cracks: ['crack', 'cracked'],
  'strands-lifted': ['lifted strands', 'strand lifted', 'raised strands'],
  'bent-barrel': ['barrel bent', 'bent'],
  'rust-bleed': ['rust', 'rust bleeding'],
  'broken-strands': ['broken strand', 'strands broken'],
  slip: ['slipped', 'slippage'],
  bow: ['bowed'],
  'bird-caging': ['birdcaging', 'bird cage', 'birdcage'],
  gap: [],
  radiograph: ['x-ray', 'xray', 'radiography'],
}

export const SPLICE_KIND_CHOICES: Choices<SpliceKind> = {
  'full-tension splice': [
    'splice', 'compression splice', 'full tension', 'full tension joint', 'midspan joint', 'mid-span splice', 'tension joint',
  ],
  'jumper splice': ['jumper', 'jumper sleeve', 'non-tension splice'],
  'repair sleeve': ['sleeve', 'repair'],
  'dead-end': ['deadend', 'dead end clamp', 'compression dead-end'],
  't-tap': ['tee', 't tap', 'tap', 't connector', 'tee connector'],
  'bolted pad': ['pad', 'bolted', 'terminal pad'],
  'parallel-groove': ['parallel groove clamp', 'pg clamp', 'pg'],
  wedge: ['wedge connector'],
  'shield-wire splice': ['shield wire', 'ground wire splice', 'ohgw splice', 'static wire splice', 'earth wire joint'],
  other: [],
}

export const CROSSING_CHOICES: Choices<CrossingKind> = {
  road: ['highway', 'street', 'motorway'],
  rail: ['railway', 'railroad', 'train'],
  river: ['water', 'waterway', 'lake', 'creek', 'stream'],
  line: ['power line', 'transmission line', 'distribution line', 'circuit'],
  building: ['house', 'structure'],
  recreation: ['park', 'trail', 'playground', 'campground'],
  other: [],
}

export const LOAD_QUALITY_CHOICES: Choices<LoadQuality> = {
  measured: ['good', 'g', 'actual', 'valid', 'telemetered', 'metered'],
  estimated: ['estimate', 'calculated', 'state estimator', 'modelled', 'modeled', 'substituted', 'manual'],
  suspect: ['bad', 'b', 'questionable', 'stale', 'invalid', 'doubtful'],
  'expected-peak': ['peak', 'forecast peak', 'planned peak', 'peak forecast', 'seasonal peak'],
  'post-contingency': ['contingency', 'n-1', 'post contingency flow', 'after contingency', 'outage elsewhere'],
}
