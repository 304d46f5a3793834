/**
 * Kestrel Fork Transmission Cooperative and all of its stations, lines and waterways are invented.
 * Only the ground they stand on, and the towns and lakes of the basemap, are real.
 */
export const UTILITY_NAME = 'Kestrel Fork Transmission Cooperative'

type Place = readonly [lon: number, lat: number]

export const SUBSTATIONS = {
  'Kestrel Fork': [-114.78, 48.03],
  'Tamarack Gap': [-115.42, 48.36],
  'Osprey Bench': [-114.93, 47.42],
  'Cold Anvil': [-114.38, 47.14],
  'Larkspur Flat': [-113.32, 47.02],
  'Saddle Pine': [-112.98, 47.58],
  'Whetstone Ridge': [-113.14, 48.17],
  'Blue Heron': [-114.12, 48.56],
  Granary: [-112.5, 48.46],
  'Millrace Creek': [-115.78, 47.62],
  Juniper: [-115.02, 47.58],
} as const satisfies Record<string, Place>

export type Substation = keyof typeof SUBSTATIONS

export interface CircuitPlan {
  circuit: string
  lineName: string
  from: Substation
  to: Substation
  /** Bends that keep the line off lakes and ridges. */
  via: Place[]
  voltageKv: number
  conductor: string
  subconductors: number
  ratingA: number
  ratingEmergencyA: number
  maxOperatingC: number
  region: string
  radial: boolean
  mw: number
  spanM: readonly [low: number, high: number]
  /** Structure numbers: running '045', or mile and number '12/3'. */
  numbering: 'running' | 'by-mile'
  builtIn: number
  /** Left negative, looking ahead; circuits that share structures name the one whose structures they use. */
  lateralOffsetM?: number
  sharesWith?: string
  splices: number
}

const W = 'West', E = 'East', N = 'North'

export const CIRCUITS: CircuitPlan[] = [
  {
    circuit: '3410', lineName: 'Kestrel Fork - Tamarack Gap', from: 'Kestrel Fork', to: 'Tamarack Gap', via: [[-115.0, 48.1], [-115.2, 48.28]],
    voltageKv: 345, conductor: 'Cardinal', subconductors: 2, ratingA: 1990, ratingEmergencyA: 2280, maxOperatingC: 75, region: W,
    radial: false, mw: 620, spanM: [330, 450], numbering: 'running', builtIn: 1986, splices: 260,
  },
  {
    circuit: '3420', lineName: 'Whetstone Ridge - Granary', from: 'Whetstone Ridge', to: 'Granary', via: [[-112.82, 48.25]],
    voltageKv: 345, conductor: 'Bobolink', subconductors: 1, ratingA: 1270, ratingEmergencyA: 1460, maxOperatingC: 75, region: E,
    radial: false, mw: 540, spanM: [320, 430], numbering: 'running', builtIn: 1992, splices: 110,
  },
  {
    circuit: '2310', lineName: 'Kestrel Fork - Osprey Bench No. 1', from: 'Kestrel Fork', to: 'Osprey Bench', via: [[-114.86, 47.86], [-114.79, 47.66]],
    voltageKv: 230, conductor: 'Drake', subconductors: 1, ratingA: 900, ratingEmergencyA: 1040, maxOperatingC: 75, region: W,
    radial: false, mw: 300, spanM: [270, 370], numbering: 'running', builtIn: 1974, lateralOffsetM: -6, splices: 250,
  },
  {
    circuit: '2320', lineName: 'Kestrel Fork - Osprey Bench No. 2', from: 'Kestrel Fork', to: 'Osprey Bench', via: [],
    voltageKv: 230, conductor: 'Drake', subconductors: 1, ratingA: 900, ratingEmergencyA: 1040, maxOperatingC: 75, region: W,
    radial: false, mw: 290, spanM: [270, 370], numbering: 'running', builtIn: 1979, lateralOffsetM: 6, sharesWith: '2310', splices: 240,
  },
  {
    circuit: '2330', lineName: 'Osprey Bench - Cold Anvil', from: 'Osprey Bench', to: 'Cold Anvil', via: [[-114.72, 47.3]],
    voltageKv: 230, conductor: 'Drake', subconductors: 1, ratingA: 900, ratingEmergencyA: 1040, maxOperatingC: 75, region: W,
    radial: false, mw: 260, spanM: [270, 370], numbering: 'running', builtIn: 1976, splices: 170,
  },
  {
    circuit: '2340', lineName: 'Cold Anvil - Larkspur Flat', from: 'Cold Anvil', to: 'Larkspur Flat', via: [[-114.1, 47.05], [-113.7, 47.1]],
    voltageKv: 230, conductor: 'Cardinal', subconductors: 1, ratingA: 990, ratingEmergencyA: 1140, maxOperatingC: 75, region: E,
    radial: false, mw: 310, spanM: [280, 380], numbering: 'running', builtIn: 1983, splices: 220,
  },
  {
    circuit: '2350', lineName: 'Whetstone Ridge - Blue Heron', from: 'Whetstone Ridge', to: 'Blue Heron', via: [[-113.42, 48.33], [-113.8, 48.46]],
    voltageKv: 230, conductor: 'Drake', subconductors: 1, ratingA: 1110, ratingEmergencyA: 1280, maxOperatingC: 100, region: N,
    radial: false, mw: 280, spanM: [270, 370], numbering: 'running', builtIn: 2001, splices: 190,
  },
  {
    circuit: '1410', lineName: 'Larkspur Flat - Saddle Pine', from: 'Larkspur Flat', to: 'Saddle Pine', via: [[-113.2, 47.3]],
    voltageKv: 138, conductor: 'Hawk', subconductors: 1, ratingA: 650, ratingEmergencyA: 750, maxOperatingC: 75, region: E,
    radial: false, mw: 120, spanM: [220, 310], numbering: 'by-mile', builtIn: 1971, splices: 190,
  },
  {
    circuit: '1420', lineName: 'Saddle Pine - Whetstone Ridge', from: 'Saddle Pine', to: 'Whetstone Ridge', via: [[-112.92, 47.88]],
    voltageKv: 138, conductor: 'Hawk', subconductors: 1, ratingA: 650, ratingEmergencyA: 750, maxOperatingC: 75, region: E,
    radial: false, mw: 110, spanM: [220, 310], numbering: 'by-mile', builtIn: 1987, splices: 200,
  },
  {
    circuit: '1430', lineName: 'Millrace Creek - Kestrel Fork', from: 'Millrace Creek', to: 'Kestrel Fork', via: [[-115.45, 47.72], [-115.1, 47.9]],
    voltageKv: 138, conductor: 'Hawk', subconductors: 1, ratingA: 650, ratingEmergencyA: 750, maxOperatingC: 75, region: W,
    radial: false, mw: 130, spanM: [220, 310], numbering: 'running', builtIn: 1969, splices: 250,
  },
  {
    circuit: '1150', lineName: 'Blue Heron - Kestrel Fork', from: 'Blue Heron', to: 'Kestrel Fork', via: [[-114.42, 48.42], [-114.66, 48.22]],
    voltageKv: 115, conductor: 'Linnet', subconductors: 1, ratingA: 525, ratingEmergencyA: 600, maxOperatingC: 75, region: N,
    radial: false, mw: 70, spanM: [190, 270], numbering: 'by-mile', builtIn: 1962, splices: 190,
  },
  {
    circuit: '6910', lineName: 'Millrace Creek - Osprey Bench', from: 'Millrace Creek', to: 'Osprey Bench', via: [[-115.4, 47.55], [-115.15, 47.46]],
    voltageKv: 69, conductor: 'Penguin', subconductors: 1, ratingA: 355, ratingEmergencyA: 400, maxOperatingC: 75, region: W,
    radial: true, mw: 24, spanM: [150, 230], numbering: 'by-mile', builtIn: 1958, splices: 150,
  },
]

/** A tap of the radial circuit: a section of its own. */
export const TAP = { circuit: '6910', section: 'Juniper tap', to: 'Juniper' as Substation, conductor: 'Raven', ratingA: 240, ratingEmergencyA: 270 }

export const WATERWAYS = [
  'Little Anvil Creek', 'Sorrel River', 'North Sorrel Creek', 'Whistling Pig Creek', 'Tin Cup Slough', 'Kettle Fork', 'Lodgepole Creek',
  'Grindstone Creek', 'Mourning Dove Creek', 'Bellwether River', 'Quartz Ladder Creek', 'Upper Osprey Creek', 'Saddlebag Creek', 'Cinder Creek',
] as const
export const ROADS = [
  'County road 12', 'County road 31', 'Timber road 407', 'Bench road', 'Mill road', 'Ranch lane', 'State route 94', 'Ridge road', 'Quarry road',
] as const
export const RAILWAYS = ['Sorrel Valley branch line', 'Granary spur'] as const
