import { z } from 'zod'

const positive = z.number().positive()
const nonNegative = z.number().min(0)
const probability = z.number().min(0).max(1)
/** How many times more often a sign is seen on a splice over the ratio than on one under it. */
const oddsFactor = z.number().min(0.01).max(1000)

const edgesShape = { watch: positive, degraded: positive, urgent: positive, critical: positive }
const rising = (e: { watch: number; degraded: number; urgent: number; critical: number }) =>
  e.watch < e.degraded && e.degraded < e.urgent && e.urgent < e.critical
const risingMessage = { message: 'The edges must rise from watch to critical.' }

/**
 * What a utility may set; `policySchema.parse({})` gives every default. Where nothing else stands beside a default it is
 * common practice or our own choice, without a published source. `POLICY_WORDS` says the same on the settings screen.
 */
export const policySchema = z.object({
  procedureNo: z.string().max(80).default(''),
  /** Class edges on k at a maximum operating temperature of 75 °C: the heat balance of IEEE Std 738 at the 75 °C rating
   * current, air 25 °C, rounded to the conservative side (computed, no published source). */
  edges: z.object(edgesShape).refine(rising, risingMessage).default({ watch: 1.0, degraded: 1.3, urgent: 1.85, critical: 2.75 }),
  /** Edges for hotter sections, where the utility has computed them; the row of the next higher temperature is taken. */
  edgesByMaxOperatingC: z.array(z.object({ maxOperatingC: z.number().gt(75).max(300), ...edgesShape }).refine(rising, risingMessage))
    .default([]),
  /** Above 75 °C without such a row. Urgent and critical: Drake at 100 °C in air of 25 °C passes 93 °C at k 1.22 and 125 °C
   * at 1.81 (computed); degraded lies half-way below urgent. */
  edgesAbove75: z.object(edgesShape).refine(rising, risingMessage).default({ watch: 1.0, degraded: 1.11, urgent: 1.22, critical: 1.81 }),
  /** A class is taken when the believed probability over its edge is over (watch, degraded) or at least (urgent, critical)
   * this. Lower for the worse classes, because a miss costs more. */
  pRules: z.object({ watch: probability, degraded: probability, urgent: probability, critical: probability })
    .default({ watch: 0.5, degraded: 0.5, urgent: 0.3, critical: 0.2 }),
  /** Confidence from the probability over the lower edge of the class. */
  confidence: z.object({ high: probability.default(0.8), medium: probability.default(0.5) }).prefault({}),
  /** What is believed of a compression splice before it is measured: median k and spread of ln k. */
  prior: z.object({ medianK: positive.default(0.65), sdLn: positive.default(0.6) }).prefault({}),
  /** What a year adds to a reading: to its mean of ln k, and to the variance of ln k. */
  ageing: z.object({ driftPerYear: nonNegative.default(0.03), variancePerYear: nonNegative.default(0.0025) }).prefault({}),
  /** Limit of error of a resistance reading, rectangular, and the least current per conductor for a live reading. */
  instrument: z.object({
    limitRel: nonNegative.max(0.5).default(0.02),
    limitOffsetUohm: nonNegative.default(1),
    /** Between side and conductor reading. One instrument shares its gain error, so above 0 is believable; 0 is cautious. */
    correlation: z.number().min(-1).max(1).default(0),
    minimumCurrentA: nonNegative.default(20),
    byName: z.array(z.object({
      instrument: z.string().min(1).max(80), limitRel: nonNegative.max(0.5).optional(), limitOffsetUohm: nonNegative.optional(),
      minimumCurrentA: nonNegative.optional(),
    })).default([]),
  }).prefault({}),
  repeats: z.object({
    /** Readings within this time of each other are one visit. */
    visitHours: positive.default(12),
    /** Whether the scatter of repeats with electrodes set anew counts less in their mean; the instrument's own error never does. */
    narrow: z.boolean().default(true),
    /** Repeats further apart than this factor contradict each other and are never averaged: electrodes set anew do not explain it (common practice, no source). */
    apartFactor: z.number().gt(1).max(10).default(1.5),
  }).prefault({}),
  /** Electrode spans: what counts as equal, what a conversion adds per span, where a ratio is refused. */
  span: z.object({ equalRel: nonNegative.default(0.005), uRel: nonNegative.default(0.02), refuseRel: positive.default(0.25) }).prefault({}),
  /** The conductor reading against the table. The good band stands above the 3 % by which two families of dc tables differ. */
  reference: z.object({
    okRel: positive.default(0.07),
    suspectRel: positive.default(0.2),
    suspectBelowShare: probability.default(0.5),
    /** Live reading on one aluminium layer over steel: published ac values stand up to 19 % over dc (Penguin at 75 °C). */
    singleLayerUpperRel: positive.default(0.3),
    coreFactor: z.number().min(1).max(2).default(1.19),
    endsAgreeRel: positive.default(0.05),
    /** Tolerance 3 % and temperature 3 %. */
    tableURel: positive.default(0.06),
    riseOverAirK: nonNegative.default(5),
    assumedConductorC: z.number().min(-50).max(200).default(25),
  }).prefault({}),
  side: z.object({
    implausibleRatio: nonNegative.default(0.15),
    /** Upper end of the range in which a ratio is a ratio; over it the class stands provisionally. */
    greatestRatio: positive.default(100),
    barrelOnlyFactor: z.number().min(1).max(3).default(1.15),
    /** Barrel over conductor diameter where the barrel is not known: typical sizes, from memory. */
    typicalBarrelFactor: z.number().min(1.05).max(3).default(1.7),
    /** Of a barrel's length, crimped at each end: a third of a full-tension one, less what is rounded off (from memory). 0: nobody asks. */
    crimpedShare: z.number().min(0).max(0.5).default(0.3),
  }).prefault({}),
  asymmetry: z.object({ limit: z.number().min(1).default(1.5), positionM: nonNegative.default(0.01) }).prefault({}),
  /** Two readings of one side that cannot both be right: chi-square at 1 % with one degree of freedom; a fall in standard deviations. */
  conflict: z.object({ statistic: positive.default(6.63), fallSigmas: positive.default(3) }).prefault({}),
  /** What a visual finding says of k over `overK`. Rust bleed, slip, bow, bird-caging, gap and radiograph never move k. */
  findings: z.object({
    overK: positive.default(1.3),
    none: oddsFactor.default(0.9),
    discolouration: oddsFactor.default(3),
    bulging: oddsFactor.default(5),
    cracks: oddsFactor.default(5),
    strandsLifted: oddsFactor.default(5),
    bentBarrel: oddsFactor.default(2),
  }).prefault({}),
  /** When an infrared picture proves nothing of health, and when it shows a hot splice all the same. */
  infrared: z.object({
    hotOverConductorK: nonNegative.default(3),
    /** 'Major discrepancy; repair immediately' over a similar component: ANSI/NETA ATS-2003, Table 100.18. */
    majorOverConductorK: positive.default(15),
    /** 'Probable deficiency' there begins at 3 K; full sun alone makes a sound splice 2.4 K hotter than its conductor (computed). */
    probableOverConductorK: positive.default(5),
    hotOdds: oddsFactor.default(5),
    /** 40 % of rating is widely repeated as NFPA 70B guidance (from memory, text not seen). */
    leastLoadShare: probability.default(0.4),
    leastConductorRiseK: nonNegative.default(3),
    windMS: positive.default(4),
    strongWindMS: positive.default(8),
    sunLeastRiseK: nonNegative.default(15),
    leastPixels: positive.default(3),
    leastEmissivity: probability.default(0.5),
    greatestAngleDeg: z.number().min(0).max(90).default(60),
    loadChangeShare: probability.default(0.2),
  }).prefault({}),
  /** What the heat balance makes of a picture. Status: our own choice, checked against a sensitivity study; none has a published source. */
  radiometry: z.object({
    /** Standard errors of a temperature by itself and of the difference of two in one picture, K. */
    uTemperatureK: positive.default(2),
    uDifferenceK: positive.default(1),
    /** Of weathered aluminium, and of metal whose age nobody noted; absorptivity for sunlight is taken as equal. 0.7 to 0.9 after five to ten years. */
    emissivity: z.number().min(0.15).max(1).default(0.7),
    /** Of new bright aluminium 0.2 to 0.3, and of one to two years in the open 0.4 to 0.6 (both from memory). */
    newEmissivity: z.number().min(0.15).max(1).default(0.25),
    youngEmissivity: z.number().min(0.15).max(1).default(0.5),
    /** Whether metal mirrors a sky so much colder than the air, instead of what the camera had set. A clear sky is 40 to 50 K colder (from memory). */
    reflectsSky: z.boolean().default(false),
    skyBelowAirK: nonNegative.max(80).default(40),
    /** Ages at which metal is no longer new, and at which it is weathered. */
    youngFromYears: nonNegative.max(50).default(1),
    weatheredFromYears: nonNegative.max(50).default(5),
    /** Relative errors: wind at the splice, a mean current of 30 minutes and a current of the moment. */
    uWindShare: nonNegative.default(0.15),
    uMeanCurrentShare: nonNegative.default(0.03),
    uMomentCurrentShare: nonNegative.default(0.1),
    /** Infrared never counts as surer of ln k than this. */
    leastULnK: positive.default(0.25),
    /** A picture is conclusive where a splice of this ratio would have shown so many times the error of the difference. */
    detectK: z.number().min(1).default(2),
    detectTimes: positive.default(3),
    /** A wind measured on the ground is not the wind at the line. */
    uMeasuredWindShare: nonNegative.default(0.5),
    uEmissivity: nonNegative.default(0.1),
    /** Relative error of a barrel's diameter: of a typical one, and of one on record. */
    uTypicalBarrelShare: nonNegative.default(0.15),
    uKnownBarrelShare: nonNegative.default(0.03),
    /** Sun on the line where place or hour is not known, W/m²; `uSunShare` of it is its error, and `uUnknownSunWPerM2` where nobody noted it. */
    directSunWPerM2: nonNegative.max(1500).default(900),
    diffuseSunWPerM2: nonNegative.max(1500).default(150),
    uSunShare: nonNegative.default(0.3),
    uUnknownSunWPerM2: nonNegative.default(300),
    /** Whether k takes the heat along the line into account: without it a short hot splice reads low. Limits never do, which is the cautious side. */
    heatAlongLine: z.boolean().default(false),
    /** Of aluminium: 220 to 230, from memory. */
    conductivityWPerMK: z.number().min(100).max(400).default(230),
  }).prefault({}),
  /** Weather that currents are rated at: that of the handbook ampacities (published; its sun is inferred from them). */
  ratingWeather: z.object({
    ambientC: z.number().min(-50).max(60).default(25),
    windMS: z.number().min(0).max(30).default(0.61),
    windAngleDeg: z.number().min(0).max(90).default(90),
    sunWPerM2: z.number().min(0).max(1500).default(1000),
    elevationM: z.number().min(-100).max(5000).default(0),
    emissivity: z.number().min(0.15).max(0.98).default(0.5),
    absorptivity: z.number().min(0.15).max(0.98).default(0.5),
  }).prefault({}),
  /** What a failing splice may still carry. Thermal only, and advice for the rating engineer. */
  limit: z.object({
    /** 93 °C: onset of annealing of 1350-H19 aluminium and the connector class of ANSI C119.4 (published). */
    temperatureC: z.number().min(50).max(100).default(93),
    /** No temperature is known to be harmless for a failing splice, so the hotter one is not offered over a ratio. */
    emergencyC: z.number().min(50).max(250).default(125),
    emergencyUpToK: positive.default(1.3),
    /** The limit is taken at the ratio that the splice is below with this chance. */
    upperShare: z.number().min(0.5).max(0.999).default(0.9),
    /** Temperature of the conductor at which its own rating is worked out where none is on record. */
    conductorC: z.number().min(50).max(250).default(75),
    /** A limit lapses after so long without a review. */
    reviewDays: positive.default(30),
  }).prefault({}),
  /** Growth of ln k with the years, where a splice has been read too seldom to tell its own. */
  trend: z.object({
    growthPerYear: z.number().min(-1).max(1).default(0.03),
    uGrowthPerYear: positive.default(0.05),
    /** Share of next readings that the interval is to hold; half the rest lies above it. */
    interval: z.number().min(0.5).max(0.999).default(0.9),
    /** Readings within less than this cannot show their growth by themselves, however many they are. */
    leastSpanYears: positive.default(1),
    /** The next reading is due after this share of the time to the earliest passing of the next edge. */
    dueShare: z.number().min(0.05).max(1).default(0.5),
    /** And never sooner than this, years. */
    leastYears: z.object({
      sound: positive.default(1), watch: positive.default(1), degraded: positive.default(0.25), urgent: positive.default(0.08),
      critical: positive.default(0.02),
    }).prefault({}),
  }).prefault({}),
  /** Years to the next resistance survey; older than twice that is stale. Urgent and critical are looked at sooner anyway. */
  resurveyYears: z.object({
    sound: positive.default(6), watch: positive.default(2), degraded: positive.default(0.5), urgent: positive.default(0.5),
    critical: positive.default(0.5),
    /** Sound by infrared alone, which sees the mean of both interfaces and in one weather. */
    soundByInfrared: positive.default(2),
  }).prefault({}),
  response: z.object({
    degradedDays: positive.default(365),
    urgentDays: positive.default(30),
    criticalHours: positive.default(72),
    criticalCallHours: positive.default(1),
    criticalConfirmHours: positive.default(24),
  }).prefault({}),
  /** How many independent good readings clear urgent or critical, and how far apart two by one instrument must be. */
  hold: z.object({ independentReadings: z.int().min(2).default(2), apartHours: positive.default(12) }).prefault({}),
})
export type Policy = z.infer<typeof policySchema> & { version: number }

/** Version 0: nobody has set anything yet. */
export const defaultPolicy: Policy = { ...policySchema.parse({}), version: 0 }
