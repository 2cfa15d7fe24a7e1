import type { Person } from '../../src/domain/people/person';

/** An invented athlete. */
export const person = (id: string, fields: Partial<Person> = {}): Person => ({
  id,
  name: 'Quib Marn',
  squad: null,
  birthYear: null,
  sex: null,
  statureMillimetres: null,
  kneeMillimetres: null,
  angleTool: null,
  mindText: '',
  guardianAgreedOn: null,
  isInvented: false,
  ...fields,
});
