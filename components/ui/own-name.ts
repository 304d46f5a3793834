const KEY = 'own-name'

/** The name under which this browser's reader last wrote into a log; '' where there is none, or the browser keeps nothing. */
export function ownName(): string {
  try {
    return window.localStorage.getItem(KEY) ?? ''
  } catch {
    return ''
  }
}

export function keepOwnName(name: string): void {
  try {
    window.localStorage.setItem(KEY, name.trim())
  } catch {
    // A browser that keeps nothing asks again.
  }
}
