import { expect, type APIRequestContext, type Locator, type Page } from '@playwright/test'
import { stateJson } from '@/lib/contract/api'
import { importStatus, page as pageOf, reading, type ImportStatus, type ReadingJson } from '@/lib/contract/contract'

const AS_PROGRAM = { Authorization: 'Bearer browser-test' }

/** Imports a file over HTTP and waits for its end: what a test stands on, when the import itself is not what it tests. */
export async function importNow(
  request: APIRequestContext,
  { name, text, kind }: { name: string; text: string; kind: string },
): Promise<ImportStatus> {
  const multipart = { kind, file: { name, mimeType: 'text/plain', buffer: Buffer.from(text) } }
  const { id } = importStatus.parse(await (await request.post('/api/v1/imports', { headers: AS_PROGRAM, multipart })).json())
  let status: ImportStatus | undefined
  await expect
    .poll(
      async () => {
        status = importStatus.parse(await (await request.get(`/api/v1/imports/${id}`)).json())
        return status.state
      },
      { timeout: 60_000 },
    )
    .toBe('done')
  if (!status) throw new Error(`Import ${id} has no status.`)
  return status
}

export async function undoNow(request: APIRequestContext, id: number): Promise<void> {
  expect((await request.delete(`/api/v1/imports/${id}`, { headers: AS_PROGRAM })).ok()).toBe(true)
}

/** The reading of an import by its own name. */
export async function readingOf(request: APIRequestContext, importId: number, key: string): Promise<ReadingJson> {
  const { items } = pageOf(reading).parse(await (await request.get(`/api/v1/readings?import=${importId}`)).json())
  const found = items.find((r) => r.reading_id === key)
  if (!found) throw new Error(`Import ${importId} has no reading ${key}.`)
  return found
}

/** Drops a file on the page as a hand would: drag events that carry it. */
export async function drop(page: Page, name: string, bytes: string | Buffer): Promise<void> {
  const transfer = await page.evaluateHandle(
    ({ fileName, base64 }) => {
      const carried = new DataTransfer()
      carried.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], fileName))
      return carried
    },
    { fileName: name, base64: Buffer.from(bytes).toString('base64') },
  )
  for (const type of ['dragenter', 'dragover', 'drop']) await page.dispatchEvent('body', type, { dataTransfer: transfer })
  await transfer.dispose()
}

/** The number at the end of an import's address. */
export const importIdOf = (page: Page): number => Number(/\/intake\/(\d+)/.exec(page.url())?.[1])

/** Wider than the window by this many pixels; 0 where nothing makes a page scroll sideways. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

/** What the store holds and what waits for a person. */
export const state = async (page: Page) => stateJson.parse(await (await page.request.get('/api/v1/state')).json())

/** Until the rows on screen are those of the mapping on screen. */
export const rowsRead = (page: Page) => expect(page.locator('main [aria-busy="true"]')).toHaveCount(0)

/** The front of the intake, with its list there. */
export async function open(page: Page): Promise<void> {
  await page.goto('/intake')
  await expect(page.getByRole('heading', { name: 'Past imports' })).toBeVisible()
  await rowsRead(page)
}

/** Notes by the screen that the control room was told of what `item` is about. */
export async function toldBy(page: Page, item: Locator): Promise<void> {
  await item.getByRole('button', { name: 'Control room told' }).click()
  const asked = page.getByRole('dialog', { name: 'Control room told' })
  await asked.getByLabel('Who was told').fill('Desk 2')
  await asked.getByRole('button', { name: 'Note it' }).click()
  await expect(asked).toBeHidden()
}
