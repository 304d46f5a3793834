/** 'Row 12, line 15, conductor_uohm (column 'Rc'): ' before what is wrong; row, line and field stand in columns of their own. */
const PLACE = /^(?:File|(?:Row|Feature) \d+)(?:, line \d+)?(?:, [a-z0-9_]+(?: \(column '.*?'\))?)?: /

/** What is wrong, without where: for lists that show row and field beside it. */
export function faultText(message: string): string {
  const text = message.replace(PLACE, '')
  return text.charAt(0).toUpperCase() + text.slice(1)
}
