import { refusalOf, RequestFailed } from '@/components/ui/fetch-json'
import { importStatus, type ImportStatus } from '@/lib/contract/contract'

/** The preview needs only the head of a file. */
export const PREVIEW_BYTES = 1024 * 1024

export interface UploadProgress {
  sentBytes: number
  totalBytes: number
}

export interface UploadOutcome {
  status: ImportStatus
  /** The same file was here before: nothing was imported again. */
  heldAlready: boolean
}

export interface UploadRequest {
  file: File
  kind: string
  /** JSON of the mapping as confirmed. */
  mapping: string
  survey: string
  dryRun: boolean
}

/** The form of POST /api/v1/imports. The file comes last, so that a server reading the stream knows the rest before the bytes. */
export function uploadForm({ file, kind, mapping, survey, dryRun }: UploadRequest): FormData {
  const form = new FormData()
  form.set('kind', kind)
  form.set('mapping', mapping)
  if (survey !== '') form.set('survey', survey)
  if (dryRun) form.set('dry_run', '1')
  form.set('file', file, file.name)
  return form
}

/**
 * Sends a file and reports how much has left. XMLHttpRequest, because fetch reports no upload progress over HTTP/1.
 * Rejects with RequestFailed (what and remedy), or with AbortError when `signal` ends it.
 */
export function sendFile(request: UploadRequest, onProgress: (p: UploadProgress) => void, signal: AbortSignal): Promise<UploadOutcome> {
  return new Promise((resolve, reject) => {
    const xhr = new XMLHttpRequest()
    xhr.open('POST', '/api/v1/imports')
    xhr.upload.onprogress = (e) => onProgress({ sentBytes: e.loaded, totalBytes: e.total })
    xhr.onload = () => {
      const body = parse(xhr.responseText)
      const read = importStatus.safeParse(body)
      if (xhr.status < 300 && read.success) resolve({ status: read.data, heldAlready: xhr.status === 200 })
      else reject(refusalOf(xhr.status, body, '/api/v1/imports', 'Nothing was imported. Correct the file and send it again.'))
    }
    xhr.onerror = () =>
      reject(
        new RequestFailed(
          'The connection broke while the file was being sent.',
          'Nothing was imported. Check the connection and send the file again.',
          0,
          '/api/v1/imports',
          'network',
        ),
      )
    xhr.onabort = () => reject(new DOMException('Sending was stopped.', 'AbortError'))
    signal.addEventListener('abort', () => xhr.abort(), { once: true })
    xhr.send(uploadForm(request))
  })
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
