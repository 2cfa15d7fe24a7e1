import { expect, it } from 'vitest';
import { byInitials, isInitials } from '../../../src/domain/people/initials';
import { personFrom } from '../../../src/domain/people/personFrom';
import { initialsOf } from '../../../src/domain/reporting/sheet/plain';
import { someone } from './someone';

it.each([
  ['Quib Marn', 'Q. M.'],
  ['Q. M.', 'Q. M.'],
  ['vennel ashgrove-tosk', 'V. A. T.'],
  ['Żofia Ñandú', 'Ż. Ñ.'],
  ["O'Brae", 'O.'],
  ['مها النجم', 'م. ا.'],
  ['Ada 7', 'A. 7.'],
])(
  'of %s the initials are %s, of which nothing can be told, and which are a name',
  (name, initials) => {
    expect(initialsOf(name)).toBe(initials);
    expect(isInitials(initials)).toBe(true);
    expect(isInitials(name)).toBe(name === initials);
    const read = personFrom({ name: initials }, { id: 'a', today: '2031-03-01' });
    expect(read.person?.name).toBe(initials);
  },
);

it('those under 18 without consent come by initials, nobody else', () => {
  const all = [
    someone('Quib Marn', { birthYear: 2016 }),
    someone('Vennel Ashgrove', { birthYear: 2016, guardianAgreedOn: '2031-02-01' }),
    someone('Tam Brae', { birthYear: 1999 }),
    someone('Orla Finch'),
  ];
  expect(byInitials(all, '2031-03-01').map(({ name }) => name)).toEqual([
    ...['Q. M.', 'Vennel Ashgrove', 'Tam Brae', 'Orla Finch'],
  ]);
});
