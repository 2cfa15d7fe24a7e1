import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { found, squadsOf } from '../../../src/domain/people/found';
import { someone } from './someone';

const people = [
  someone('Žofie Marn', { squad: 'Morning' }),
  someone('Łuq Ørd', { squad: 'Evening' }),
  someone('Marn Quib', { squad: 'Evening' }),
  someone('Åsk Norma', { squad: 'Morning' }),
  someone("D'Arq Vell", { squad: null }),
];
const names = (text: string, locale = 'en') => found(people, text, locale).map(({ name }) => name);

describe('looking for people', () => {
  it('finds everybody by name in the order of the locale where nothing is typed', () => {
    expect(names('')).toEqual(['Åsk Norma', "D'Arq Vell", 'Łuq Ørd', 'Marn Quib', 'Žofie Marn']);
    expect(names('  ')).toHaveLength(5);
    expect(names('', 'sv').at(-1)).toBe('Åsk Norma');
  });

  it.each([
    ['zofie', 'Žofie Marn'],
    ['ŽOFIE', 'Žofie Marn'],
    ['luq', 'Łuq Ørd'],
    ['ord', 'Łuq Ørd'],
    ['ask', 'Åsk Norma'],
    ['a\u030Ask', 'Åsk Norma'],
    ['arq', "D'Arq Vell"],
  ])('"%s" finds %s without accents or capitals', (text, name) => {
    expect(names(text)).toEqual([name]);
  });

  it('puts the beginnings of words of a name first, then squads, then what lies inside words', () => {
    expect(names('mar')).toEqual(['Marn Quib', 'Žofie Marn']);
    expect(names('mor')).toEqual(['Åsk Norma', 'Žofie Marn']);
    expect(names('n')).toEqual(['Åsk Norma', 'Łuq Ørd', 'Marn Quib', 'Žofie Marn']);
    expect(names('orm')).toEqual(['Åsk Norma']);
  });

  it('goes by how well it fits before it goes by name', () => {
    const club = [
      someone('Abo Ovi'),
      someone('Bim Qua', { squad: 'Vell' }),
      someone('Zed Vorn'),
      someone('Cuv Dap', { squad: 'Vell' }),
    ];
    const order = found(club, 'v', 'en').map(({ name }) => name);
    expect(order).toEqual(['Zed Vorn', 'Bim Qua', 'Cuv Dap', 'Abo Ovi']);
  });

  it('wants every word, in any order, of name and squad together', () => {
    expect(names('quib marn')).toEqual(['Marn Quib']);
    expect(names('evening mar')).toEqual(['Marn Quib']);
    expect(names('evening zofie')).toEqual([]);
  });

  it('takes whatever is typed for text', () => {
    expect(names('.*')).toHaveLength(5);
    expect(names('marn)')).toHaveLength(2);
  });

  it('finds everybody by any beginning of a word of their name', () => {
    fc.assert(
      fc.property(fc.constantFrom(...people), fc.nat(), fc.nat(), (one, at, length) => {
        const words = one.name.split(/[ ']/);
        const word = words[at % words.length]!;
        expect(found(people, word.slice(0, 1 + (length % word.length)))).toContain(one);
      }),
    );
  });
});

describe('squads', () => {
  it('are told once each, in order', () => {
    expect(squadsOf(people, 'en')).toEqual(['Evening', 'Morning']);
  });
});
