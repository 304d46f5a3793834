import type { Format } from '../types'
import { csv } from './csv'
import { geojson } from './geojson'

/** In the order they are asked; the first that recognises the bytes reads them. Add a format here and nowhere else. */
export const FORMATS: readonly Format[] = [geojson, csv]
