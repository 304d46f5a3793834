import type { Weather } from './heat/weather'
import type { Policy } from './policy'

/** The weather that currents are rated at; its surfaces stand beside it in the policy. */
export const ratingWeatherOf = ({ ratingWeather }: Policy): Weather => ({
  ambientC: ratingWeather.ambientC, windMS: ratingWeather.windMS, windAngleDeg: ratingWeather.windAngleDeg, sunWPerM2: ratingWeather.sunWPerM2,
  elevationM: ratingWeather.elevationM,
})
