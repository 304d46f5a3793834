import { expect, test as base } from '@playwright/test'

interface Watch {
  /** Console errors that a test provokes on purpose. */
  expectedErrors: RegExp[]
  watched: void
}

/** Every browser test fails where its page throws, logs an error, breaks the content policy or asks a foreign server for anything. */
export const test = base.extend<Watch>({
  expectedErrors: [[], { option: true }],
  watched: [async ({ page, baseURL, expectedErrors }, use) => {
    const wrong: string[] = []
    page.on('pageerror', (e) => wrong.push(`the page threw: ${e.message}`))
    page.on('console', (message) => {
      const text = message.text()
      if (message.type() === 'error' && !expectedErrors.some((known) => known.test(text))) wrong.push(`the console says: ${text} (${message.location().url})`)
    })
    page.on('request', (request) => {
      const url = new URL(request.url())
      if (url.protocol.startsWith('http') && url.origin !== new URL(baseURL ?? '').origin) wrong.push(`the page asked ${url.origin}`)
    })
    await use()
    expect(wrong).toEqual([])
  }, { auto: true }],
})

export { expect }
