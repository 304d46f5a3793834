import type { Weather } from './heat/weather'
import type { Policy } from './policy'

/** Above sea level: of the section where that is on record, else the setting. */
export const elevationOf = (sectionM: number | null | undefined, { ratingWeather }: Policy): number => sectionM ?? ratingWeather.elevationM

/** The weather that currents are rated at; its surfaces stand beside it in the policy. @param sectionM elevation of the section; absent: not known */
export const ratingWeatherOf = ({ ratingWeather }: Policy, sectionM?: number | null): Weather => ({
  ambientC: ratingWeather.ambientC, windMS: ratingWeather.windMS, windAngleDeg: ratingWeather.windAngleDeg, sunWPerM2: ratingWeather.sunWPerM2,
  elevationM: sectionM ?? ratingWeather.elevationM,
})
