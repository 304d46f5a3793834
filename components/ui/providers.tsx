'use client'
import { useState, type ReactNode } from 'react'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { NuqsAdapter } from 'nuqs/adapters/next/app'
import { Tooltip } from 'radix-ui'
import { RequestFailed } from './fetch-json'
import { ToastProvider } from './toast'

/** Client-side plumbing shared by every screen. */
export function Providers({ children }: { children: ReactNode }) {
  const [client] = useState(() => new QueryClient({
    defaultOptions: {
      queries: {
        staleTime: 10_000,
        // The server may stand on this machine or network: a browser that calls itself offline still asks it.
        networkMode: 'always',
        retry: (count, error) => count < 2 && !(error instanceof RequestFailed && error.status >= 400 && error.status < 500),
      },
      // What somebody decided is told to the server now or fails on screen; it never waits for a network unseen.
      mutations: { networkMode: 'always' },
    },
  }))
  return (
    <NuqsAdapter>
      <QueryClientProvider client={client}>
        <Tooltip.Provider delayDuration={400}>
          <ToastProvider>{children}</ToastProvider>
        </Tooltip.Provider>
      </QueryClientProvider>
    </NuqsAdapter>
  )
}
