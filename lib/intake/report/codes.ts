/** Code of the remark on a file whose readings another survey holds, value for value. */
export const KNOWN_IN_OTHER_SURVEY = 'known-in-other-survey'
