'use client'
import { useRef, type ReactNode } from 'react'
import { Button, type ButtonProps } from '@/components/ui/button'
import { Icon } from '@/components/ui/icons'
import { FORMATS } from '@/lib/intake'

const ACCEPT = FORMATS.flatMap(({ extensions, mediaTypes }) => [...extensions.map((end) => `.${end}`), ...mediaTypes]).join(',')

/** A button that opens the system's file chooser: the keyboard's way to what dropping does. */
export function FilePicker({
  onFile,
  children,
  variant,
}: {
  onFile(file: File): void
  children: ReactNode
  variant?: ButtonProps['variant']
}) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <input
        ref={input}
        type="file"
        accept={ACCEPT}
        hidden
        aria-label="File to import"
        onChange={(e) => {
          const file = e.target.files?.[0]
          e.target.value = '' // the same file may be chosen again
          if (file) onFile(file)
        }}
      />
      <Button variant={variant} onClick={() => input.current?.click()}>
        <Icon name="upload" />
        {children}
      </Button>
    </>
  )
}
