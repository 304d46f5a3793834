import { readFile } from 'node:fs/promises'
import type { Locator, Page } from '@playwright/test'
import { linesOf, surveyOf } from '@/test/fixtures/browser/test-lines'
import { seriousBarriers } from './barriers'
import { expect, test } from './fixtures'
import { drop, importIdOf, importNow, open, overhang, rowsRead, state, toldBy, undoNow } from './imports'

const START_LAT = 47.75
const LINES = linesOf('IN-', START_LAT)
const SURVEY = surveyOf(START_LAT, [
  { id: 'K-1', eastM: -6, spans: 0.4, circuit: 'IN-1', phase: 'A', sideA: '8', sideB: '7', conductor: '12' },
  { id: 'K-2', eastM: -6, spans: 1.4, circuit: 'IN-1', phase: 'B', sideA: '10', sideB: '53', conductor: '12' },
  { id: 'K-3', date: '2024-06-01', eastM: 0, spans: 2.3, phase: 'C', sideA: '11', sideB: '10', conductor: '12' },
  { id: 'K-4', date: '2024-06-02', eastM: 600, spans: 3.5, sideA: '9', sideB: '10', conductor: '12' },
  { id: 'K-5', eastM: -6, spans: 3.6, circuit: 'IN-1', phase: 'A', sideA: '0', sideB: '10', conductor: '12' },
  { id: 'K-6', date: '2091-05-14', eastM: -6, spans: 3.7, circuit: 'IN-1', phase: 'A', sideA: '9', sideB: '10', conductor: '12' },
])

const usedAs = (page: Page, column: string, field = '') => page.getByRole('button', { name: `${column} is used as ${field}` })

/** Opens the list of fields of a column, types and takes the best match. */
async function use(page: Page, column: string, typed: string) {
  await usedAs(page, column).click()
  await page.getByRole('combobox', { name: `Find what ${column} is used as` }).fill(typed)
  await page.keyboard.press('Enter')
}
const rowOf = (page: Page, id: string) =>
  page.getByRole('region', { name: 'First rows of the file' }).getByRole('row').filter({ hasText: id })

const figures = (where: Locator) => where.getByText(/^6 rows\s*=\s*4 read\s*\+\s*2 not read$/)

/** Drops the survey and says what its conductor column is, which no guess knows. */
async function lookAtSurvey(page: Page) {
  await drop(page, 'spring-survey.csv', SURVEY)
  await expect(page.getByRole('heading', { name: 'spring-survey.csv' })).toBeVisible()
  await expect(usedAs(page, 'R cond (µΩ)')).toBeVisible()
  await use(page, 'R cond (µΩ)', 'conductor res')
  await expect(usedAs(page, 'R cond (µΩ)', 'Conductor resistance')).toBeFocused()
  await rowsRead(page)
}

test.describe('a survey that is dropped', () => {
  let linesId: number

  test.beforeAll(async ({ request }) => {
    linesId = (await importNow(request, { name: 'in-lines.geojson', text: LINES, kind: 'lines' })).id
  })
  test.afterAll(async ({ request }) => undoNow(request, linesId))

  test('is looked at first: what its columns mean, in which units, and what each row becomes', async ({ page }) => {
    await open(page)
    await lookAtSurvey(page)
    await expect(page.getByText('Cells are parted by semicolons')).toBeVisible()
    await expect(usedAs(page, 'Line', 'Circuit')).toBeVisible()
    await expect(page.getByRole('combobox', { name: 'Unit of Ambient (°F)' })).toHaveValue('f')
    await expect(page.getByRole('combobox', { name: 'Unit of Probe spacing (in)' })).toHaveValue('in')
    await expect(usedAs(page, 'Truck', 'nothing')).toBeVisible()
    await expect(page.getByRole('row', { name: /^R cond/ })).toContainText('your choice')

    await expect(rowOf(page, 'K-1')).toContainText('Placed')
    await expect(rowOf(page, 'K-1')).toContainText('circuit IN-1')
    await expect(rowOf(page, 'K-2')).toContainText('critical by its own numbers: call the control room now')
    await expect(rowOf(page, 'K-4')).toContainText('To review')
    await expect(rowOf(page, 'K-5')).toContainText('Not read')
    await expect(rowOf(page, 'K-6')).toContainText('lies in the future')

    const narrowed = page.getByRole('radio', { name: 'Not read 2' })
    await narrowed.click()
    await expect(rowOf(page, 'K-1')).toHaveCount(0)
    await expect(rowOf(page, 'K-6')).toHaveCount(1)
  })

  test('a field that two columns claim is named in both', async ({ page }) => {
    await open(page)
    await lookAtSurvey(page)
    await use(page, 'Truck', 'conductor res')
    await expect(page.getByText('Conductor resistance is chosen twice')).toHaveCount(2)
    await expect(page.locator('main').getByRole('alert').filter({ hasText: 'Several columns are mapped to conductor_uohm' })).toBeVisible()
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toHaveCount(0)
    await usedAs(page, 'Truck').click()
    await page.getByRole('option', { name: 'Not used' }).click()
    await rowsRead(page)
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled()
  })

  test('has its rows gone through by the arrow keys, the chosen one open in full', async ({ page }) => {
    await open(page)
    await lookAtSurvey(page)
    const button = (row: number) => page.getByRole('button', { name: `Row ${row}`, exact: true })
    await button(1).focus()
    await page.keyboard.press('ArrowDown')
    await expect(button(2)).toBeFocused()
    await expect(button(2)).toHaveAttribute('aria-expanded', 'true')
    await page.keyboard.press('ArrowUp')
    await expect(button(1)).toHaveAttribute('aria-expanded', 'true')
  })

  test('names readings without a number by place and row, in a dry run too', async ({ page }) => {
    await open(page)
    const header = 'taken_at,lon,lat,circuit,structure_back,structure_ahead,phase,side_a_uohm,side_b_uohm,conductor_uohm'
    const [lon, lat] = [-113.9 - 6 / 74_800, START_LAT + 0.0014]
    await drop(page, 'unnumbered.csv', `${header}\n2024-05-14T09:00:00Z,${lon},${lat},IN-1,,,A,10,53,12\n`)
    await expect(page.getByRole('heading', { name: 'unnumbered.csv' })).toBeVisible()
    await rowsRead(page)
    await page.getByRole('button', { name: 'Dry run' }).click()
    await expect(page.locator('main').getByRole('alert').first()).toContainText(/1 critical: call the control room now/i)
    const call = page.getByRole('region', { name: 'Dry run: nothing is kept' }).getByRole('alert')
    await expect(call).toContainText('row 1 of unnumbered.csv', { timeout: 30_000 })
    await expect(call).toContainText('IN-1')
    expect(await call.innerText()).not.toMatch(/[0-9a-f]{16}/)
  })

  test('runs dry without a trace', async ({ page }) => {
    await open(page)
    const before = await state(page)
    await lookAtSurvey(page)
    await page.getByRole('button', { name: 'Dry run' }).click()
    const dryRun = page.getByRole('region', { name: 'Dry run: nothing is kept' })
    await expect(figures(dryRun)).toBeVisible({ timeout: 30_000 })
    await expect(dryRun.getByRole('heading', { name: 'Call the control room now' })).toBeVisible()
    await expect(dryRun.getByText('Nothing was kept, so operations does not see this yet.')).toBeVisible()
    const after = await state(page)
    expect({ counts: after.counts, review: after.review_count, urgent: after.urgent_count }).toEqual({
      counts: before.counts,
      review: before.review_count,
      urgent: before.urgent_count,
    })

    // What left nothing does not stand among what came in.
    await open(page)
    await expect(page.getByRole('table', { name: 'Past imports' }).getByText('Dry run, nothing kept')).toHaveCount(0)
    await page.getByText('Dry runs', { exact: true }).click()
    await expect(page.getByText('Dry runs are numbered with imports, so the numbers of imports have gaps.')).toBeVisible()
    await expect(page.getByRole('table', { name: 'Dry runs' }).getByRole('row').filter({ hasText: 'spring-survey.csv' }).first()).toContainText('Dry run, nothing kept')
    await page.getByRole('table', { name: 'Dry runs' }).getByRole('link', { name: 'spring-survey.csv' }).first().click()
    await expect(page.getByText(/\/ dry run \d+$/)).toBeVisible()
    await expect(page).toHaveTitle(/^Dry run \d+/)
  })

  test('is imported once, opens with the call to the control room, and is undone and taken back as one act', async ({ page }) => {
    await open(page)
    const before = await state(page)
    await lookAtSurvey(page)
    await page.getByRole('button', { name: 'Import', exact: true }).click()
    await page.waitForURL(/\/intake\/\d+$/)
    const id = importIdOf(page)

    // Nothing stands above the call.
    await expect(page.locator('main').getByRole('heading').first()).toHaveText('Call the control room now', { timeout: 30_000 })
    const call = page.getByRole('alert').filter({ hasText: 'Call the control room now' })
    await expect(call).toContainText('One reading is critical by its own numbers')
    await expect(call.getByRole('link', { name: 'IN-1', exact: true })).toBeVisible()
    await expect(call).toContainText('4.42')
    await expect(figures(page.locator('main'))).toBeVisible()
    await expect(page.getByText('2 to review')).toBeVisible()
    expect((await state(page)).urgent_count).toBe(before.urgent_count + 1)

    await toldBy(page, call)
    await expect(page.getByRole('heading', { name: 'The control room has been told' })).toBeVisible()
    expect((await state(page)).urgent_count).toBe(before.urgent_count)

    expect(await seriousBarriers(page)).toEqual([])
    const issue = page.locator('details').filter({ hasText: 'time-in-future' })
    await issue.locator('summary').click()
    await expect(issue.getByRole('row').filter({ hasText: '2091-05-14' })).toBeVisible()
    const download = page.waitForEvent('download')
    await page.getByRole('link', { name: '2 rows not read, as CSV' }).click()
    expect(await readFile(await (await download).path(), 'utf8')).toContain('K-6')

    // From the list, what was not read leads to its rows.
    await page.getByRole('link', { name: 'Intake', exact: true }).first().click()
    await page.getByRole('link', { name: '2 rows of spring-survey.csv not read: show' }).first().click()
    await expect(page.getByRole('row').filter({ hasText: '2091-05-14' })).toBeVisible()

    // The same file again: nothing new, the same report.
    await page.getByRole('link', { name: 'Intake', exact: true }).first().click()
    await expect(page.getByRole('row').filter({ hasText: 'spring-survey.csv' }).first()).toContainText('Imported')
    await drop(page, 'spring-survey.csv', SURVEY)
    await expect(usedAs(page, 'R cond (µΩ)', 'Conductor resistance')).toBeVisible() // as last time
    const conductor = page.getByRole('row', { name: /^R cond/ })
    await expect(conductor).toContainText('as last time')
    await expect(page.getByText(/^Read as import \d+ was: columns/)).toBeVisible()
    await page.getByRole('button', { name: 'Forget it and read anew' }).click()
    await expect(page.getByText('Importing it forgets that.')).toBeVisible()
    await expect(conductor).not.toContainText('as last time')
    await page.getByRole('button', { name: 'Cancel' }).click()
    await drop(page, 'spring-survey.csv', SURVEY)
    await expect(conductor).toContainText('as last time') // nothing was imported, so nothing was forgotten
    await rowsRead(page)
    await page.getByRole('button', { name: 'Import', exact: true }).click()
    await page.waitForURL(`**/intake/${id}?again=1`)
    await expect(page.getByText('nothing was imported again')).toBeVisible()
    await expect(page.getByRole('heading', { name: 'Already announced: the control room has been told' })).toBeVisible()
    await expect(figures(page.locator('main'))).toBeVisible()

    await page.getByRole('button', { name: 'Undo import' }).click()
    const asked = page.getByRole('dialog', { name: 'Undo the import of spring-survey.csv?' })
    await expect(asked).toContainText('Withdraws 4 readings')
    await expect(asked).toContainText('does not fall from urgent or critical')
    await asked.getByRole('button', { name: 'Undo import' }).click()
    await expect(page.getByText('This import was undone.')).toBeVisible()
    await expect.poll(async () => (await state(page)).review_count).toBe(before.review_count)

    await page.getByRole('button', { name: 'Take back' }).click()
    await page.waitForURL((url) => /\/intake\/\d+$/.test(url.pathname) && !url.pathname.endsWith(`/${id}`))
    const second = importIdOf(page)
    await expect(figures(page.locator('main'))).toBeVisible({ timeout: 30_000 })
    await undoNow(page.request, second)
  })

  test('reads on a phone, dark and light, without a barrier', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 })
    await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' })
    await open(page)
    expect(await overhang(page)).toBe(0)
    expect(await seriousBarriers(page)).toEqual([])
    await lookAtSurvey(page)
    expect(await overhang(page)).toBe(0)
    expect(await seriousBarriers(page)).toEqual([])
    await page.getByRole('radio', { name: 'Rows' }).click()
    await expect(rowOf(page, 'K-2')).toBeVisible()
    expect(await overhang(page)).toBe(0)
    await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' })
    await page.setViewportSize({ width: 1440, height: 900 })
    expect(await seriousBarriers(page)).toEqual([])
  })
})

test.describe('a file that cannot be used', () => {
  // Chromium logs every answer of 400 and more as an error of the page.
  test.use({ expectedErrors: [/Failed to load resource: the server responded with a status of 4\d\d/] })

  const refused = (page: Page) => page.locator('main').getByRole('alert')

  test('is refused when empty, before anything is sent', async ({ page }) => {
    await open(page)
    await drop(page, 'empty.csv', '')
    await expect(refused(page)).toContainText('empty.csv is empty')
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toHaveCount(0)
    await page.getByRole('button', { name: 'Back to intake' }).click()
    await expect(page.getByRole('heading', { name: 'Past imports' })).toBeVisible()
  })

  test('is refused by a named limit over 100 MB, before anything is sent', async ({ page }) => {
    await open(page)
    const sent: string[] = []
    page.on('request', (r) => {
      if (r.method() === 'POST') sent.push(r.url())
    })
    const transfer = await page.evaluateHandle(() => {
      const carried = new DataTransfer()
      carried.items.add(new File([new ArrayBuffer(120_000_000)], 'flight.csv'))
      return carried
    })
    await page.dispatchEvent('body', 'drop', { dataTransfer: transfer })
    await expect(refused(page)).toContainText('120 MB, more than the limit of 100 MB')
    await expect(refused(page)).toContainText('npm run import has no limit')
    expect(sent).toEqual([])
  })

  test('is refused by name when it is no text', async ({ page }) => {
    await open(page)
    await drop(
      page,
      'picture.csv',
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d, 0x49, 0x48, 0x44, 0x52, 0, 0, 0, 1, 0, 0, 0, 1]),
    )
    await expect(refused(page)).toBeVisible()
    await expect(refused(page).getByRole('button', { name: 'Choose another file' })).toBeVisible()
  })

  test('is mapped by hand where no column has a name that is known, with what is missing said', async ({ page }) => {
    await open(page)
    await drop(page, 'unheard.csv', 'Kreis,Wann,Links,Leiter\nIN-1,2024-05-04T09:00:00Z,8,12\n')
    await expect(refused(page)).toContainText('No column of the file has a name that is known.')
    await expect(refused(page)).not.toContainText('mapping')
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toHaveCount(0)
    await page.getByRole('combobox', { name: 'Kind of file' }).click()
    await page.getByRole('option', { name: 'Readings' }).click()
    await expect(page.getByText(/^No column is used as Side A resistance, .* need one of them/)).toBeVisible()
    await use(page, 'Links', 'side a')
    await use(page, 'Leiter', 'conductor res')
    await use(page, 'Wann', 'date and')
    await rowsRead(page)
    await expect(refused(page)).toHaveCount(0)
    await expect(page.getByRole('button', { name: 'Import', exact: true })).toBeEnabled()
    await expect(rowOf(page, 'IN-1')).toContainText('To review')
  })

  test('is no list of lines as CSV: lines are GeoJSON only, and another kind can be chosen', async ({ page }) => {
    await open(page)
    await drop(page, 'lines.csv', 'circuit,voltage_kv,from,to,conductor\nIN-1,115,Alder,Birch,Drake\n')
    await expect(refused(page)).toContainText('Lines are read from GeoJSON only')
    await expect(page.getByRole('combobox', { name: 'Kind of file' })).toContainText('Lines (GeoJSON only)')
    await page.getByRole('combobox', { name: 'Kind of file' }).click()
    await page.getByRole('option', { name: 'Splices' }).click()
    await expect(refused(page)).toContainText('No column is mapped to any of structure_back, structure_ahead')
  })

  test('says which rows have longitude and latitude changed about', async ({ page }) => {
    await open(page)
    await drop(
      page,
      'swapped.csv',
      'reading_id,taken_at,lon,lat,circuit,side_a_uohm,side_b_uohm,conductor_uohm\nS-1,2024-05-04T09:00:00Z,47.75,-113.9,X,8,7,12\n',
    )
    await expect(rowOf(page, 'S-1')).toContainText('Not read')
    await expect(rowOf(page, 'S-1')).toContainText(/lat/)
    const importing = page.getByRole('button', { name: 'Import', exact: true })
    await expect(importing).toBeDisabled()
    await expect(importing).toHaveAccessibleDescription('The only row would not be read: correct the columns or the file.')
    await expect(page.getByRole('button', { name: 'Dry run' })).toBeEnabled()
  })

  test('shows formula cells as text and says so', async ({ page }) => {
    await open(page)
    await drop(
      page,
      'formula.csv',
      'reading_id,taken_at,lon,lat,circuit,side_a_uohm,side_b_uohm,conductor_uohm\nF-1,2024-05-04T09:00:00Z,-113.9,47.75,X,"=HYPERLINK(""http://example.com"")",7,12\n',
    )
    await expect(rowOf(page, 'F-1')).toContainText('Not read')
    await expect(rowOf(page, 'F-1')).toContainText('Side A resistance:')
    await expect(page.locator('a[href*="example.com"]')).toHaveCount(0)
  })

  test('reads UTF-16 with a semicolon and says how it was understood', async ({ page }) => {
    await open(page)
    const header = 'reading_id;taken_at;lon;lat;circuit;side_a_uohm;side_b_uohm;conductor_uohm;note'
    const text = `${header}\r\nU-1;2024-05-04T09:00:00Z;-113,9;47,75;X;8;7;12;für später\r\n`
    await drop(page, 'utf16.csv', Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(text, 'utf16le')]))
    await expect(rowOf(page, 'U-1')).toContainText('für später')
    await expect(page.locator('header').filter({ hasText: 'utf16.csv' })).toContainText(/UTF-16/)
  })
})

test.describe('without an answer from the server', () => {
  test.use({ expectedErrors: [/net::ERR_FAILED/] })

  test('the look at a file is tried again, and a dry run that was not sent stays a dry run', async ({ page }) => {
    await open(page)
    await page.route('**/api/v1/imports/preview', (route) => route.abort())
    await drop(page, 'away.csv', SURVEY)
    const told = page.locator('main').getByRole('alert')
    await expect(told).toContainText('The server did not answer.')
    await page.unroute('**/api/v1/imports/preview')
    await told.getByRole('button', { name: 'Try again' }).click()
    await expect(usedAs(page, 'Line', 'Circuit')).toBeVisible()
    await use(page, 'R cond (µΩ)', 'conductor res')
    await rowsRead(page)

    await page.route('**/api/v1/imports', (route) => route.abort())
    await page.getByRole('button', { name: 'Dry run' }).click()
    const broken = told.filter({ hasText: 'The connection broke while the file was being sent.' })
    await expect(broken).toBeVisible()
    await expect(broken.getByRole('button', { name: 'Send again' })).toHaveCount(0)
    await page.unroute('**/api/v1/imports')
    await broken.getByRole('button', { name: 'Run dry again' }).click()
    await expect(page.getByRole('region', { name: 'Dry run: nothing is kept' })).toContainText('6 rows', { timeout: 30_000 })
    expect(new URL(page.url()).pathname).toBe('/intake')
  })
})

test('a row not read whose own numbers cannot wait stands under the call, not among the faults', async ({ page, request }) => {
  const survey = surveyOf(START_LAT, [
    { id: 'N-1', date: '2091-05-14', eastM: -6, spans: 1.4, circuit: 'IN-1', phase: 'B', sideA: '10', sideB: '53', conductor: '12' },
    { id: 'N-2', eastM: -6, spans: 0.4, circuit: 'IN-1', phase: 'A', sideA: '8', sideB: '7', conductor: '12' },
  ])
  const { id } = await importNow(request, { name: 'not-read.csv', text: survey.replace('R cond (µΩ)', 'conductor_uohm'), kind: 'readings' })
  await page.goto(`/intake/${id}`)
  const call = page.getByRole('alert', { name: 'Call the control room now' })
  await expect(call).toContainText('One row that was not read is critical by its own numbers')
  await expect(call).toContainText('4.42')
  await expect(call).toContainText('IN-1')
  await undoNow(request, id)
})

test('a file is chosen by keyboard as well', async ({ page }) => {
  await open(page)
  const chooser = page.waitForEvent('filechooser')
  await page.getByRole('button', { name: 'Choose a file' }).focus()
  await page.keyboard.press('Enter')
  await (await chooser).setFiles({ name: 'chosen.csv', mimeType: 'text/csv', buffer: Buffer.from(SURVEY) })
  await expect(page.getByRole('heading', { name: 'chosen.csv' })).toBeVisible()
  await expect(usedAs(page, 'Test ID', 'Reading number')).toBeVisible()
})

test('every kind of file has its template', async ({ page }) => {
  await open(page)
  const links = page.getByRole('region', { name: 'Templates' }).getByRole('link')
  await expect(links).toHaveCount(8)
  for (const link of await links.all()) {
    const answer = await page.request.get((await link.getAttribute('href')) ?? '')
    expect(answer.status()).toBe(200)
    expect(answer.headers()['content-type']).toMatch(/text\/csv|application\/geo\+json/)
  }
})
