import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { ReportScreen } from '@/components/intake/report-screen'

type Props = { params: Promise<{ id: string }> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Import ${(await params).id}` }
}

export default async function ImportPage({ params }: Props) {
  const { id } = await params
  if (!/^[1-9]\d{0,8}$/.test(id)) notFound()
  return <ReportScreen id={Number(id)} />
}
