import { IMPORT_KINDS } from '@/lib/intake/types'
import { Icon } from '@/components/ui/icons'
import { KINDS } from '@/lib/intake/kinds/kinds'
import { templateOf } from '@/lib/intake/report/template'
import { KindFields } from './kind-fields'
import css from './intake.module.css'

/** Headers of our own, to fill in; any other header is mapped by guess and by the user. */
export function Templates() {
  return (
    <section id="templates" aria-labelledby="templates-title">
      <h2 id="templates-title" className={css.sectionTitle}>
        Templates
      </h2>
      <p className={css.sectionNote}>Not required: a file with other headers is mapped when you drop it. Lines are read from GeoJSON only; the others also from GeoJSON points.</p>
      <ul className={css.templates}>
        {IMPORT_KINDS.map((kind) => (
          <li key={kind}>
            <a href={`/api/v1/templates/${templateOf(kind).file}`} download={templateOf(kind).file}>
              <Icon name="download" />
              {KINDS[kind].label}
            </a>
            <span>{KINDS[kind].description}</span>
          </li>
        ))}
      </ul>
      {IMPORT_KINDS.map((kind) => (
        <KindFields key={kind} kind={kind} />
      ))}
    </section>
  )
}
