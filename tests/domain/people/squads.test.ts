import { describe, expect, it } from 'vitest';
import { dissolved, renamed } from '../../../src/domain/people/squads';
import { fileNameOf, takenOut } from '../../../src/domain/people/takenOut';
import { someone } from './someone';

const TODAY = '2031-06-01';
const PEOPLE = [
  someone('Quib', { squad: 'Early', birthYear: 2013 }),
  someone('Vell', { squad: 'Late' }),
  someone('Žo', { squad: 'Early' }),
  someone('Ash'),
];

describe('a squad', () => {
  it('is renamed for all of its people and for nobody else, who stay as they are', () => {
    const read = renamed(PEOPLE, 'Early', '  Harbour   early ', TODAY);
    expect(read).toMatchObject({ squad: 'Harbour early' });
    expect(read.people).toEqual([
      someone('Quib', { squad: 'Harbour early', birthYear: 2013 }),
      someone('Žo', { squad: 'Harbour early' }),
    ]);
  });

  it.each([
    ['', /Type one, or dissolve/],
    [' - ', /has no letter/],
    ['x'.repeat(81), /at most 80/],
  ])('is not called "%s"', (typed, say) => {
    expect(renamed(PEOPLE, 'Early', typed, TODAY)).toEqual({
      people: null,
      problem: expect.stringMatching(say),
    });
  });

  it('is dissolved: its people stay, without one', () => {
    expect(dissolved(PEOPLE, 'Early')).toEqual([
      someone('Quib', { birthYear: 2013 }),
      someone('Žo'),
    ]);
  });
});

describe('a list that is taken out', () => {
  const known = PEOPLE.map((person) => ({ person }));
  const invented = [{ person: someone('Tosk', { isInvented: true }) }];

  it('has no invented people beside real ones, and is named by its day', () => {
    expect(takenOut([...invented, ...known])).toEqual(known);
    expect(fileNameOf('who', known, TODAY)).toBe('sayso-athletes-2031-06-01.csv');
    expect(fileNameOf('standing', known, TODAY)).toBe('sayso-standing-2031-06-01.csv');
  });

  it('has invented people where there are no others, and its name says so', () => {
    expect(takenOut(invented)).toEqual(invented);
    expect(fileNameOf('who', invented, TODAY)).toBe('sayso-invented-athletes-2031-06-01.csv');
  });
});
