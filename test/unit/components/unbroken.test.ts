import { createElement, Fragment } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { unbroken } from '@/components/ui/unbroken'

const markup = (text: string) => renderToStaticMarkup(createElement(Fragment, null, unbroken(text)))
const kept = (text: string) => [...markup(text).matchAll(/<span[^>]*>([^<]*)<\/span>/g)].map(([, part]) => part)

describe('a text with designations', () => {
  it('keeps each on one line', () => {
    expect(kept('Breaker 23-3 at Osprey Bench, 23-5 at Cold Anvil; line switches 23-3L, 23-5L.')).toEqual(['23-3', '23-5', '23-3L', '23-5L'])
    expect(kept('Line duty, Osprey Bench yard: ext. 5130')).toEqual(['ext. 5130'])
    expect(kept('advised by 2310-088; STR 34/4 to 34/5 of 6910, tap 69-J')).toEqual(['2310-088', '34/4', '34/5', '69-J'])
  })

  it('is copied and searched for as it was written, and plain words break as they did', () => {
    const text = 'Switch 23-3L, ext. 5130, a worst-case look and/or 8 Oct 2026'
    expect(markup(text).replace(/<[^>]+>/g, '')).toBe(text)
    expect(kept('a worst-case look and/or 8 Oct 2026, 260 MW')).toEqual([])
  })
})
