/** How far a default can be traced. */
export type PolicySource = 'published' | 'computed' | 'memory' | 'common practice'

/**
 * One setting, as a settings screen shows it. `path` is the place in the policy: 'instrument.limitRel'. The words carry their
 * quantities in braces, for `localText`.
 */
export interface PolicyWord {
  path: string
  label: string
  /** '' where the number has none; 'share' stands for 0 … 1 and is shown in per cent. */
  unit: string
  meaning: string
  source: string
  status: PolicySource
}

type Line = readonly [path: string, label: string, unit: string, meaning: string, status?: PolicySource, source?: string]

const COMMON = 'Common practice, no source.'
const BALANCE = 'Computed with the heat balance of IEEE Std 738 at the {75 °C} rating current, air {25 °C}, rounded to the conservative side.'
const DRAKE_100 = 'Computed for Drake at {100 °C} in air of {25 °C}: {93 °C} is passed at k 1.22, {125 °C} at 1.81.'
const HANDBOOK = 'Conditions of the handbook ampacities: air {25 °C}, {0.61 m/s} across the line, sea level, surfaces of 0.5.'
const ANNEALING = 'Onset of annealing of 1350-H19 aluminium (CMDM 2021); connectors of ANSI C119.4 are for {93 °C} and less.'
const CHI_SQUARE = 'Chi-square distribution with one degree of freedom, 1 %.'

const LINES: readonly Line[] = [
  ['procedureNo', 'Procedure number', '', 'Your procedure that these settings follow; stands on every report.'],
  ['edges.watch', 'Watch over', 'ratio', 'Resistance of a side over the same length of conductor: worse than the conductor.', 'computed',
    BALANCE],
  ['edges.degraded', 'Degraded over', 'ratio', 'The splice runs hotter than its conductor.', 'computed', BALANCE],
  ['edges.urgent', 'Urgent over', 'ratio', 'The splice would pass {93 °C} at full rating.', 'computed', BALANCE],
  ['edges.critical', 'Critical over', 'ratio', 'The splice would pass {125 °C} at full rating.', 'computed', BALANCE],
  ['edgesByMaxOperatingC', 'Edges of hotter sections', '', 'Edges by maximum operating temperature for sections above {75 °C}.'],
  ['edgesAbove75.watch', 'Above {75 °C}: watch over', 'ratio',
    'Taken above {75 °C} where no edges are set for the temperature; confidence is then low.'],
  ['edgesAbove75.degraded', 'Above {75 °C}: degraded over', 'ratio', 'As above; half-way between watch and urgent.'],
  ['edgesAbove75.urgent', 'Above {75 °C}: urgent over', 'ratio', 'As above: the splice would pass {93 °C} at full rating.', 'computed',
    DRAKE_100],
  ['edgesAbove75.critical', 'Above {75 °C}: critical over', 'ratio', 'As above: the splice would pass {125 °C} at full rating.', 'computed',
    DRAKE_100],
  ['pRules.watch', 'Chance that makes watch', 'share', 'Watch is taken when the chance of a ratio over its edge is more than this.'],
  ['pRules.degraded', 'Chance that makes degraded', 'share',
    'Degraded is taken when the chance of a ratio over its edge is more than this.'],
  ['pRules.urgent', 'Chance that makes urgent', 'share', 'Urgent is taken from this chance on; lower, because a miss costs more.'],
  ['pRules.critical', 'Chance that makes critical', 'share', 'Critical is taken from this chance on; lower, because a miss costs more.'],
  ['confidence.high', 'High confidence from', 'share', 'Chance that the ratio lies over the lower edge of the class.'],
  ['confidence.medium', 'Medium confidence from', 'share', 'Below it confidence is low.'],
  ['prior.medianK', 'Ratio before measuring', 'ratio', 'What a splice nobody has measured is most likely to read.'],
  ['prior.sdLn', 'Spread before measuring', 'ln ratio', 'How widely such splices differ; larger trusts the reading more.'],
  ['ageing.driftPerYear', 'Growth per year', 'ln ratio', 'How far the ratio is taken to have grown for each year since the reading.'],
  ['ageing.variancePerYear', 'Doubt per year', '(ln ratio)²', 'How much less sure a reading is for each year since it was taken.'],
  ['instrument.limitRel', 'Instrument error, of reading', 'share', 'Limit of error in proportion to the reading.'],
  ['instrument.limitOffsetUohm', 'Instrument error, fixed', 'µΩ',
    'Limit of error that every reading has; it counts most on large conductors.'],
  ['instrument.correlation', 'Shared instrument error', '', 'How far side and conductor readings err together; 0 is cautious.'],
  ['instrument.minimumCurrentA', 'Least current', 'A per conductor', 'A live reading at less current proves nothing.'],
  ['instrument.byName', 'Instruments of their own', '', 'Limits of error and least current of instruments by name.'],
  ['repeats.visitHours', 'One visit', 'h', 'Readings within this time belong together.'],
  ['repeats.narrow', 'Repeats narrow the error', '', 'Whether repeats with electrodes set anew make the mean more certain.'],
  ['span.equalRel', 'Equal electrode spans', 'share', 'Spans that differ by less count as equal.'],
  ['span.uRel', 'Error of a span', 'share', 'Added for each span when the conductor reading is converted to another span.'],
  ['span.refuseRel', 'Spans too different', 'share', 'Beyond this difference no ratio is formed.'],
  ['reference.okRel', 'Conductor reading agrees', 'share', 'Difference from the table that needs no remark; tables differ by up to 3 %.'],
  ['reference.suspectRel', 'Conductor reading suspect', 'share', 'Beyond this difference the ratio is provisional.'],
  ['reference.suspectBelowShare', 'Conductor reading far too low', 'share',
    'Below this share of the table value the reading is suspect in any case.'],
  ['reference.singleLayerUpperRel', 'One aluminium layer, live', 'share',
    'Live readings on one aluminium layer over steel may stand this far above the dc table.'],
  ['reference.coreFactor', 'Effect of the steel core', 'ratio', 'ac over dc on one aluminium layer, where the table cannot tell.',
    'computed', 'Penguin at {75 °C}, published ac against dc: 1.19.'],
  ['reference.endsAgreeRel', 'Two conductor readings agree', 'share', 'Closer than this their mean is taken, else the lower.'],
  ['reference.tableURel', 'Error of a table value', 'share', 'Where the conductor was not measured: tolerance 3 % and temperature 3 %.'],
  ['reference.riseOverAirK', 'Conductor over air', 'K', 'Taken where only the air temperature was noted.'],
  ['reference.assumedConductorC', 'Conductor temperature', '°C', 'Taken where no temperature was noted.'],
  ['side.implausibleRatio', 'Too low to be true', 'ratio', 'Both electrodes were on the barrel.'],
  ['side.greatestRatio', 'Greatest ratio', 'ratio', 'Above it the class is provisional: an open interface, or milliohm given as microohm.'],
  ['side.barrelOnlyFactor', 'Interface not proved', 'ratio',
    'At or below this many times the barrel alone, the interface was not between the electrodes.'],
  ['side.typicalBarrelFactor', 'Typical barrel', 'ratio', 'Barrel over conductor diameter where the barrel is not known.', 'memory',
    'Typical barrels, from memory, ±15 %.'],
  ['asymmetry.limit', 'Sides too different', 'ratio', 'Worse side over better side that makes a splice better than its conductor a watch.'],
  ['asymmetry.positionM', 'Equal electrode positions', 'm', 'Positions that differ by less count as equal.'],
  ['conflict.statistic', 'Readings disagree', '', 'Squared difference over its variance beyond which two readings cannot both be right.',
    'published', CHI_SQUARE],
  ['conflict.fallSigmas', 'Ratio fell', 'standard errors',
    'A fall without a repair beyond this is a measuring fault or a moved electrode.'],
  ['findings.overK', 'Findings speak of ratios over', 'ratio', 'The ratio over which a visual finding makes a splice more likely to lie.'],
  ['findings.none', 'Nothing found', 'times', 'How much likelier a splice over that ratio shows this than one under it.'],
  ['findings.discolouration', 'Discolouration', 'times', 'As above.'],
  ['findings.bulging', 'Bulging', 'times', 'As above.'],
  ['findings.cracks', 'Cracks', 'times', 'As above.'],
  ['findings.strandsLifted', 'Strands lifted', 'times', 'As above.'],
  ['findings.bentBarrel', 'Bent barrel', 'times', 'As above.'],
  ['infrared.hotOverConductorK', 'Hot splice', 'K',
    'A splice more than this above its own conductor is hot, whatever else was wrong with the picture.'],
  ['infrared.hotOdds', 'Weight of a hot splice', 'times',
    'How much likelier a splice over the ratio of findings is hot than one under it.'],
  ['infrared.leastLoadShare', 'Least load', 'share', 'Of the rating; a picture at less proves nothing of health.', 'memory',
    'Widely repeated as NFPA 70B guidance; text not seen.'],
  ['infrared.leastConductorRiseK', 'Least conductor rise', 'K', 'A conductor less above the air carries too little to show a bad splice.'],
  ['infrared.windMS', 'Most wind', 'm/s', 'A picture in more wind proves nothing of health.'],
  ['infrared.strongWindMS', 'Strong wind', 'm/s', 'In more wind a hot splice is no evidence either.'],
  ['infrared.sunLeastRiseK', 'Least rise in the sun', 'K', 'In direct sun a smaller rise over the air proves nothing.'],
  ['infrared.leastPixels', 'Pixels over the barrel', '', 'Fewer measure the sky as well.'],
  ['infrared.leastEmissivity', 'Least emissivity', '', 'Brighter metal shows the sky instead of itself.'],
  ['infrared.greatestAngleDeg', 'Greatest viewing angle', '°', 'From the normal of the surface.'],
  ['infrared.loadChangeShare', 'Change of load', 'share', 'Within 30 minutes; the splice has not followed yet.'],
  ['radiometry.uTemperatureK', 'Error of a temperature', 'K', 'Standard error of one temperature in a picture.'],
  ['radiometry.uDifferenceK', 'Error of a difference', 'K', 'Standard error of splice over conductor in one picture.'],
  ['radiometry.emissivity', 'Emissivity of weathered metal', '', 'Taken where nobody noted it; sunlight is taken in as well as heat is given off.',
    'memory', 'Weathered aluminium of five to ten years: 0.7 to 0.9, from memory.'],
  ['radiometry.uWindShare', 'Error of the wind', 'share', 'Between the wind the conductor shows and the wind at the splice.'],
  ['radiometry.uMeanCurrentShare', 'Error of a mean current', 'share', 'Of the mean over the 30 minutes before the picture.'],
  ['radiometry.uMomentCurrentShare', 'Error of a current of the moment', 'share',
    'Where the mean was not noted: a splice follows its current by 20 to 40 minutes.'],
  ['radiometry.leastULnK', 'Least error of infrared', 'ln ratio', 'However good the picture, infrared counts as no surer of the ratio than this.'],
  ['radiometry.detectK', 'Ratio that must have shown', 'ratio', 'A picture is conclusive where a splice of this ratio would have stood out.'],
  ['radiometry.detectTimes', 'Standing out', 'times', 'By so many times the error of a difference.'],
  ['radiometry.uMeasuredWindShare', 'Error of a measured wind', 'share', 'Wind measured from the ground is not the wind at the line.'],
  ['radiometry.uEmissivity', 'Error of the emissivity', '', 'Of conductor and barrel, in the heat they give off.'],
  ['radiometry.uTypicalBarrelShare', 'Error of a typical barrel', 'share', 'Of its diameter, where none is on record.', 'memory',
    'Typical barrels, from memory, ±15 %.'],
  ['radiometry.uKnownBarrelShare', 'Error of a known barrel', 'share', 'Of its diameter on record.'],
  ['radiometry.directSunWPerM2', 'Direct sun', 'W/m²', 'On the line, where place or hour of a picture is not known.'],
  ['radiometry.diffuseSunWPerM2', 'Sun behind cloud', 'W/m²', 'On the line, under an overcast sky.'],
  ['radiometry.uSunShare', 'Error of the sun', 'share', 'Of what is reckoned or taken.'],
  ['radiometry.uUnknownSunWPerM2', 'Error of an unknown sun', 'W/m²', 'Where nobody noted the sky, no sun is taken, give or take this.'],
  ['ratingWeather.ambientC', 'Air temperature', '°C', 'Air at which currents are rated.', 'published', HANDBOOK],
  ['ratingWeather.windMS', 'Wind speed', 'm/s', 'Wind at which currents are rated.', 'published', HANDBOOK],
  ['ratingWeather.windAngleDeg', 'Angle of the wind', '°', 'Against the line: 90 blows across it and cools best.', 'published', HANDBOOK],
  ['ratingWeather.sunWPerM2', 'Sun on the line', 'W/m²', 'On the line.', 'computed', 'The sun at which the balance of IEEE Std 738 meets the handbook ampacities.'],
  ['ratingWeather.elevationM', 'Elevation', 'm', 'Thinner air cools less.', 'published', HANDBOOK],
  ['ratingWeather.emissivity', 'Emissivity', '', 'Of conductor and barrel; how well they give off heat.', 'published', HANDBOOK],
  ['ratingWeather.absorptivity', 'Absorptivity', '', 'Of conductor and barrel; how much of the sun they take in.', 'published', HANDBOOK],
  ['limit.temperatureC', 'Splice no hotter than', '°C', 'Temperature that the current limit keeps a splice under.', 'published', ANNEALING],
  ['limit.emergencyC', 'In an emergency', '°C', 'A hotter limit, offered only for splices that are not failing.'],
  ['limit.emergencyUpToK', 'Emergency limit up to', 'ratio', 'Over this ratio no temperature is known to be harmless.'],
  ['limit.upperShare', 'Ratio for the limit', 'share', 'The limit is taken at a ratio that the splice is below with this chance.'],
  ['limit.conductorC', 'Conductor no hotter than', '°C', 'Where the section has no rating on record, its conductor is rated at this.'],
  ['limit.reviewDays', 'Review a limit within', 'days', 'A limit that is not reviewed lapses, and an engineer is to be asked.'],
  ['trend.growthPerYear', 'Growth before it is seen', 'ln ratio', 'Per year, of a splice read too seldom to show its own.'],
  ['trend.uGrowthPerYear', 'Error of that growth', 'ln ratio', 'How widely splices differ in it.'],
  ['trend.interval', 'Interval of a trend', 'share', 'Share of next readings that it is to hold; half the rest lies above it.'],
  ['trend.leastSpanYears', 'Shortest trend', 'years', 'Readings closer together cannot show their growth by themselves.'],
  ['trend.dueShare', 'Read again after', 'share', 'Of the time to the earliest day on which the next class edge may be passed.'],
  ['trend.leastYears.sound', 'Not sooner than: sound', 'years', 'A next reading is never due sooner than this.'],
  ['trend.leastYears.watch', 'Not sooner than: watch', 'years', 'As above.'],
  ['trend.leastYears.degraded', 'Not sooner than: degraded', 'years', 'As above.'],
  ['trend.leastYears.urgent', 'Not sooner than: urgent', 'years', 'As above; looked at at each peak of load until repaired.'],
  ['trend.leastYears.critical', 'Not sooner than: critical', 'years', 'As above; looked at at each peak of load until repaired.'],
  ['resurveyYears.sound', 'Measure again: sound', 'years', 'Readings older than twice this are stale.'],
  ['resurveyYears.watch', 'Measure again: watch', 'years', 'As above.'],
  ['resurveyYears.degraded', 'Measure again: degraded', 'years', 'As above.'],
  ['resurveyYears.urgent', 'Measure again: urgent', 'years', 'As above; looked at at each peak of load until repaired.'],
  ['resurveyYears.critical', 'Measure again: critical', 'years', 'As above; looked at at each peak of load until repaired.'],
  ['resurveyYears.soundByInfrared', 'Measure again: sound by infrared alone', 'years', 'Infrared sees the mean of both sides, in one weather.'],
  ['response.degradedDays', 'Repair degraded within', 'days', 'In the next planned outage.'],
  ['response.urgentDays', 'Repair urgent within', 'days', 'From the finding.'],
  ['response.criticalHours', 'Repair critical within', 'h', 'From the finding.'],
  ['response.criticalCallHours', 'Call on critical within', 'h', 'The control room decides load relief or outage.'],
  ['response.criticalConfirmHours', 'Confirm critical within', 'h', 'A second, independent reading.'],
  ['hold.independentReadings', 'Good readings that clear', '',
    'Urgent and critical stand until so many independent readings of all sides, or an engineer, say otherwise.'],
  ['hold.apartHours', 'Independent readings apart', 'h', 'Two readings by one instrument that are closer are one.'],
]

/** Every setting with its words, in the order of the screen; a test keeps this list and the policy the same. */
export const POLICY_WORDS: readonly PolicyWord[] = LINES.map((line) => {
  const [path, label, unit, meaning, status = 'common practice', source = COMMON] = line
  return { path, label, unit, meaning, source, status }
})
