import { FileRefusal, type Mapping, type RawRow } from '@/lib/intake'

interface Found {
  columns: string[]
  mapping: Mapping
  /** The first rows, as they stand in the file. */
  sample: readonly RawRow[]
}

/** The file can be read, and its columns cannot be used as they are mapped: a person can say what they hold. */
export class MappingRefusal extends FileRefusal {
  constructor(code: string, message: string, remedy: string, readonly found: Found) {
    super(code, message, remedy)
  }
}
