import type { ReactNode } from 'react'
import css from './sheet.module.css'

/** Numbers of switches, splices and structures ('23-3L', '2310-088', '34/4'), and an extension with its word. */
const DESIGNATION = /(\bext\.? \d+|\b[\w/-]*\d[\w/]*[-/][\w/-]{1,20})/

/** A text in which no designation is broken over two lines. What is searched for and copied stays as it was written. */
export const unbroken = (text: string): ReactNode =>
  text.split(DESIGNATION).map((part, i) => (i % 2 === 1 ? <span key={i} className={css.unbroken}>{part}</span> : part))
