import { buildApp } from '../build-app'
import { buildBasemap } from '../build-basemap'
import { step } from '../steps.mjs'

/** `npm run build`: what `npm start` serves. */
export async function run(): Promise<number> {
  await step('Building the basemap', (report) => buildBasemap('public', report))
  await step('Building the pages', buildApp)
  return 0
}
