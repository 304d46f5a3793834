'use client'
import { useCallback } from 'react'
import { localText } from '@/lib/units/local-text'
import { useUnitSystem } from './preferences'

/** Turns a fixed sentence into the reader's units and spelling: what stands in braces, and the words that a US utility spells its own way. */
export function useLocalText(): (text: string) => string {
  const [system] = useUnitSystem()
  return useCallback((text) => localText(text, system), [system])
}
