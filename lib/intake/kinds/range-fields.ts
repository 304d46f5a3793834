import type { Field } from './field'

export const structureFromField: Field<'structureFrom'> = {
  name: 'structure_from', key: 'structureFrom', type: 'identifier',
  synonyms: [
    'from structure', 'from str', 'str from', 'from tower', 'tower from', 'from pole', 'start structure', 'structure start', 'from',
    'from str no', 'from structure no', 'from pole no', 'start str', 'start pole', 'begin str', 'beg str',
  ],
  description: 'First structure of the range; text.', example: '001',
}

export const structureToField: Field<'structureTo'> = {
  name: 'structure_to', key: 'structureTo', type: 'identifier',
  synonyms: ['to structure', 'to str', 'str to', 'to tower', 'tower to', 'to pole', 'end structure', 'structure end', 'to',
    'to str no', 'to structure no', 'to pole no', 'end str', 'end pole'],
  description: 'Last structure of the range; text.', example: '058',
}
