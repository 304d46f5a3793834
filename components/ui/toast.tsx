'use client'
import { createContext, use, useCallback, useMemo, useState, type ReactNode } from 'react'
import { Toast as RadixToast } from 'radix-ui'
import { Button, IconButton } from './button'
import { cx } from './class-names'
import css from './toast.module.css'

export interface ToastMessage {
  title: string
  detail?: string
  tone?: 'plain' | 'error'
  /** Undo rather than confirm. */
  undo?: { label?: string; run(): void }
  /** Milliseconds on screen; 8 s where something can be taken back. */
  durationMs?: number
}

const ToastContext = createContext<(message: ToastMessage) => void>(() => undefined)

/** Says what has just happened. `toast({ title: 'Placed on 214', undo: { run } })`. */
export const useToast = () => use(ToastContext)

export function ToastProvider({ children }: { children: ReactNode }) {
  const [toasts, setToasts] = useState<(ToastMessage & { key: number })[]>([])
  const show = useCallback((message: ToastMessage) => {
    setToasts((now) => [...now.slice(-2), { ...message, key: (now.at(-1)?.key ?? 0) + 1 }])
  }, [])
  const remove = useCallback((key: number) => setToasts((now) => now.filter((t) => t.key !== key)), [])
  const value = useMemo(() => show, [show])
  return (
    <ToastContext value={value}>
      <RadixToast.Provider swipeDirection="right" label="Notice">
        {children}
        {toasts.map((t) => (
          <RadixToast.Root
            key={t.key}
            className={cx(css.toast, t.tone === 'error' && css.error)}
            type={t.tone === 'error' ? 'foreground' : 'background'}
            duration={t.durationMs ?? (t.undo || t.tone === 'error' ? 8000 : 4000)}
            onOpenChange={(open) => {
              if (!open) remove(t.key)
            }}>
            <div className={css.text}>
              <RadixToast.Title className={css.title}>{t.title}</RadixToast.Title>
              {t.detail && <RadixToast.Description className={css.detail}>{t.detail}</RadixToast.Description>}
            </div>
            {t.undo && (
              <RadixToast.Action asChild altText={`${t.undo.label ?? 'Undo'}: ${t.title}`}>
                <Button size="small" onClick={t.undo.run}>
                  {t.undo.label ?? 'Undo'}
                </Button>
              </RadixToast.Action>
            )}
            <RadixToast.Close asChild>
              <IconButton icon="close" label="Dismiss" size="small" />
            </RadixToast.Close>
          </RadixToast.Root>
        ))}
        <RadixToast.Viewport className={css.viewport} />
      </RadixToast.Provider>
    </ToastContext>
  )
}
