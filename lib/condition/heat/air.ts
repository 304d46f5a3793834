/** Properties of air at film temperature (mean of surface and air, °C): IEEE Std 738-2012, SI equations. */

/** Dynamic viscosity, kg/(m·s). */
export const viscosityKgPerMS = (filmC: number): number => {
  const kelvin = filmC + 273
  return (1.458e-6 * kelvin * Math.sqrt(kelvin)) / (filmC + 383.4)
}

/** Density, kg/m³, at an elevation of −100 … 5000 m. */
export const densityKgPerM3 = (filmC: number, elevationM: number): number => densityAtZeroKgPerM3(elevationM) / (1 + 0.00367 * filmC)

/** Density at 0 °C, kg/m³: the part that does not change while a temperature is sought. */
export const densityAtZeroKgPerM3 = (elevationM: number): number => 1.293 - 1.525e-4 * elevationM + 6.379e-9 * elevationM * elevationM

/** Thermal conductivity, W/(m·K). */
export const conductivityWPerMK = (filmC: number): number => 2.424e-2 + 7.477e-5 * filmC - 4.407e-9 * filmC * filmC
