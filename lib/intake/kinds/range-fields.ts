import type { Field } from './field'

export const structureFromField: Field<'structureFrom'> = {
  name: 'structure_from', key: 'structureFrom', type: 'identifier',
  synonyms: [
    'from structure', 'from str', 'str from', 'from tower', 'tower from', 'from pole', 'start structure', 'structure start', 'from',
  ],
  description: 'First structure of the range; text.', example: '001',
}

export const structureToField: Field<'structureTo'> = {
  name: 'structure_to', key: 'structureTo', type: 'identifier',
  synonyms: ['to structure', 'to str', 'str to', 'to tower', 'tower to', 'to pole', 'end structure', 'structure end', 'to'],
  description: 'Last structure of the range; text.', example: '058',
}
