import type { Person } from '../../../src/domain/people/person';

/** An invented athlete by a name that nobody has. */
export const someone = (name: string, fields: Partial<Person> = {}): Person => ({
  id: name,
  name,
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
