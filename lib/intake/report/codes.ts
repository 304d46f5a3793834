/** Code of the remark on a file whose readings another survey holds, value for value. */
export const KNOWN_IN_OTHER_SURVEY = 'known-in-other-survey'

/** Code of a row whose measurement is stored already, read with another mapping or other values beside what was measured. */
export const READ_OTHERWISE = 'read-otherwise'

/** Code of a row whose reading_id its survey holds with other values. */
export const OTHER_VALUES = 'duplicate-id'
