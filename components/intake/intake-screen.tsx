'use client'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '@/components/ui/button'
import { Icon } from '@/components/ui/icons'
import { useNetworkState } from '@/components/ui/network-state'
import { useToast } from '@/components/ui/toast'
import { DraftScreen } from './draft-screen'
import { FilePicker } from './file-picker'
import { PastImports } from './past-imports'
import { Templates } from './templates'
import { useDraft } from './use-draft'
import { useFileDrop } from './use-file-drop'
import { many } from './words'
import css from './intake.module.css'

/** Files come in here: dropped anywhere on the page or chosen, looked at, then imported. */
export function IntakeScreen() {
  const state = useDraft()
  const toast = useToast()
  const [turn, setTurn] = useState(0)
  const take = (files: File[]) => {
    const [file, ...others] = files
    if (!file) return
    state.take(file)
    setTurn(turn + 1)
    if (others.length > 0)
      toast({
        title: `${file.name} is open; ${many(others.length, 'other file')} left out.`,
        detail: 'One file is looked at at a time.',
      })
  }
  const over = useFileDrop(take)
  return (
    <>
      {over && (
        <div className={css.overlay} aria-hidden="true">
          <p>
            <Icon name="intake" />
            Drop the file to look at it first. Nothing is imported yet.
          </p>
        </div>
      )}
      {state.draft === null ? <Front onFile={(file) => take([file])} /> : <DraftScreen key={turn} state={state} />}
    </>
  )
}

function Front({ onFile }: { onFile(file: File): void }) {
  const review = useNetworkState().data?.review_count ?? 0
  return (
    <div className={css.front}>
      <header className={css.frontHead}>
        <div>
          <h1>Intake</h1>
          <p>Drop a file anywhere on this page. You see what it would become before anything is kept.</p>
        </div>
        {review > 0 && (
          <Button asChild>
            <Link href="/intake/review">
              <Icon name="target" />
              Review {many(review, 'placement')}
            </Link>
          </Button>
        )}
      </header>
      <div className={css.drop}>
        <Icon name="intake" />
        <p>
          <b>Drop a CSV or GeoJSON file here</b>
          <span>up to 100 MB; longer files by the import command. <a href="#templates">Templates and what every column means</a></span>
        </p>
        <FilePicker variant="primary" onFile={onFile}>
          Choose a file
        </FilePicker>
      </div>
      <PastImports />
      <Templates />
    </div>
  )
}
