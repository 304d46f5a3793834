import { buildApp, needsBuild } from '../build-app'
import { buildBasemap } from '../build-basemap'
import { step } from '../steps.mjs'

/** `npm run build`: what `npm start` serves. `--changed` leaves a build alone that was made from the same sources. */
export async function run(args: string[]): Promise<number> {
  await step('Building the basemap', (report) => buildBasemap('public', report))
  if (!args.includes('--changed') || needsBuild()) await step('Building the pages', buildApp)
  return 0
}
