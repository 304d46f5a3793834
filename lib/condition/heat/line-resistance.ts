import { temperatureFactor, type Conductor } from '../conductor-table'
import type { LineResistance } from './weather'

/** Ohm per metre at a temperature, along the straight line through both points (IEEE Std 738-2012). */
export const ohmPerMAt = ({ lowC, lowOhmPerM, highC, highOhmPerM }: LineResistance, temperatureC: number): number =>
  lowOhmPerM + ((highOhmPerM - lowOhmPerM) * (temperatureC - lowC)) / (highC - lowC)

/** What a kelvin adds, ohm per metre. */
export const ohmPerMK = ({ lowC, lowOhmPerM, highC, highOhmPerM }: LineResistance): number => (highOhmPerM - lowOhmPerM) / (highC - lowC)

/** The same conductor with `factor` times the resistance at every temperature. */
export const scaledResistance = ({ lowC, lowOhmPerM, highC, highOhmPerM }: LineResistance, factor: number): LineResistance =>
  ({ lowC, lowOhmPerM: lowOhmPerM * factor, highC, highOhmPerM: highOhmPerM * factor })

/** Of a conductor of the table: its ac resistance at 75 °C, carried to 20 °C by the coefficient of its metal. */
export function lineResistanceOf(conductor: Conductor): LineResistance {
  const highOhmPerM = conductor.rac75OhmPerKm / 1000
  return { lowC: 20, lowOhmPerM: highOhmPerM / temperatureFactor(conductor.alpha20PerK, 75), highC: 75, highOhmPerM }
}
