import { redirect } from 'next/navigation'

/** What somebody put behind the bare address goes along. */
export default async function Home({ searchParams }: { searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const query = new URLSearchParams(Object.entries(await searchParams).flatMap(([key, value]) => (value === undefined ? [] : [value].flat().map((one) => [key, one]))))
  redirect(query.size === 0 ? '/operations' : `/operations?${query}`)
}
