'use client'
import { useEffect, useRef, useState } from 'react'
import { useQueryClient } from '@tanstack/react-query'
import { keepFile } from './kept-files'
import { sendFile, type UploadOutcome, type UploadProgress, type UploadRequest } from './upload'

type Sending = { step: 'idle' } | { step: 'sending'; dryRun: boolean; progress: UploadProgress } | { step: 'failed'; dryRun: boolean; error: unknown }

/** Sends one file at a time. It goes on while other screens are looked at; closing the page is asked about, because the bytes are lost. */
export function useSend() {
  const [state, setState] = useState<Sending>({ step: 'idle' })
  const running = useRef<AbortController | null>(null)
  const client = useQueryClient()

  useEffect(() => {
    if (state.step !== 'sending') return
    const hold = (e: BeforeUnloadEvent) => e.preventDefault()
    window.addEventListener('beforeunload', hold)
    return () => window.removeEventListener('beforeunload', hold)
  }, [state.step])

  const send = async (request: UploadRequest): Promise<UploadOutcome | null> => {
    const abort = new AbortController()
    running.current = abort
    setState({ step: 'sending', dryRun: request.dryRun, progress: { sentBytes: 0, totalBytes: request.file.size } })
    try {
      const outcome = await sendFile(
        request,
        (progress) => setState({ step: 'sending', dryRun: request.dryRun, progress }),
        abort.signal,
      )
      if (!request.dryRun) keepFile(outcome.status.id, request)
      void client.invalidateQueries({ queryKey: ['imports'] })
      setState({ step: 'idle' })
      return outcome
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') setState({ step: 'idle' })
      else setState({ step: 'failed', dryRun: request.dryRun, error })
      return null
    }
  }
  return { state, send, stop: () => running.current?.abort() }
}
