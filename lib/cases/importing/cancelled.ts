/** Leaves the transaction of an import that somebody called off, so that all of it is rolled back. */
export class ImportCancelled extends Error {
  readonly remedy = 'Import the file again when it is wanted.'

  constructor(importId: number) {
    super(`Import ${importId} was cancelled. Nothing of it was stored.`)
  }
}
