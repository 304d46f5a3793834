import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { ReportScreen } from '@/components/intake/report-screen'
import { allScope } from '@/lib/store/all-scope'
import { getImport } from '@/lib/store/imports'

const IS_NUMBER = /^[1-9]\d{0,8}$/

type Props = { params: Promise<{ id: string }> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { id } = await params
  const found = IS_NUMBER.test(id) ? await getImport(allScope(), Number(id)) : undefined
  return { title: `${found?.dry_run ? 'Dry run' : 'Import'} ${id}` }
}

export default async function ImportPage({ params }: Props) {
  const { id } = await params
  if (!IS_NUMBER.test(id)) notFound()
  return <ReportScreen id={Number(id)} />
}
