import type { UploadRequest } from './upload'

/** Files sent from this page, by import, so that an undo can be taken back without looking for the file again. Gone with the page. */
const kept = new Map<number, UploadRequest>()

export const keepFile = (importId: number, request: UploadRequest): void => {
  kept.set(importId, request)
}
export const keptFile = (importId: number): UploadRequest | undefined => kept.get(importId)
