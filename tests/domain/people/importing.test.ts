import { describe, expect, it } from 'vitest';
import { guessColumns, unitIn, yearIn } from '../../../src/domain/people/columns';
import { peopleRows, standingRows } from '../../../src/domain/people/exporting';
import { importPeople } from '../../../src/domain/people/importing';
import type { Open } from '../../../src/domain/people/openFor';
import type { Person } from '../../../src/domain/people/person';
import type { PersonField } from '../../../src/domain/people/personFrom';
import { someone } from './someone';

const TODAY = '2031-06-01';
const columnsOf = (...titles: string[]) => titles.map((title) => ({ title, samples: [] }));

/** Imports lines of cells, the first of them on line 2. */
const imported = (
  titles: string[],
  fields: (PersonField | null)[],
  cells: string[][],
  known: Person[] = [],
) => {
  let count = 0;
  return importPeople(
    cells.map((each, at) => ({ line: at + 2, cells: each })),
    columnsOf(...titles),
    fields,
    { today: TODAY, newId: () => `new-${String((count += 1))}`, known },
  );
};

describe('columns are guessed', () => {
  const guess = (titles: string[], samples: string[][] = []) =>
    guessColumns(titles.map((title, at) => ({ title, samples: samples[at] ?? [] })));

  it.each([
    [['Name', 'Team', 'DOB', 'Gender', 'Height (cm)'], 'name squad birthYear sex stature'],
    [['FIRST NAME', 'last_name', 'Class', 'Shoe size'], 'name name squad -'],
    [['Apellidos', 'Nombre', 'Año de nacimiento', 'Género'], 'name name birthYear sex'],
    [['Athlete', 'Year born', 'Notes', 'Comments'], 'name birthYear mindText -'],
    [['Name', 'Date of birth', 'Birth year'], 'name birthYear -'],
  ])('by their titles: %j', (titles, fields) => {
    expect(guess(titles).map((field) => field ?? '-')).toEqual(fields.split(' '));
  });

  it('by what stands in them, where no title says', () => {
    const samples = [['17', '3'], ['Quib Marn', 'Žo Vell'], ['2013', '04/05/2012'], ['x7']];
    expect(guess(['1', '2', '3', '4'], samples)).toEqual([null, 'name', 'birthYear', null]);
    expect(guess(['1', '2'], [[], ['17']])).toEqual([null, null]);
  });

  it('a year out of a date, whatever its order, and nothing out of a short one', () => {
    for (const text of ['2013', '2013-05-04', '4.5.2013', '04/05/2013', '2013/5/4 00:00:00'])
      expect(yearIn(text)).toBe('2013');
    for (const text of ['13', '4/5/13', '20135', 'May 2013', '3013'])
      expect(yearIn(text)).toBeNull();
  });

  it('a unit in brackets', () => {
    expect(unitIn('Height (cm)')).toBe('cm');
    expect(unitIn('Talla [ IN ]')).toBe('in');
    expect(unitIn('Height cm')).toBeNull();
  });
});

describe('people are imported', () => {
  it('with what their columns hold, and what is left out is left out', () => {
    const { people } = imported(
      ['First', 'Shoe', 'Last', 'DOB', 'Height (in)', 'Knee'],
      ['name', null, 'name', 'birthYear', 'stature', 'knee'],
      [
        ['Quib', '44', 'Marn', '2013-05-04', '69', '48 cm'],
        ['Žo', '', '', '', `5'9"`],
      ],
    );
    expect(people).toEqual([
      {
        ...someone('Quib Marn', { birthYear: 2013, statureMillimetres: 1752.6 }),
        ...{ id: 'new-1', kneeMillimetres: 480 },
      },
      { ...someone('Žo', { statureMillimetres: 1752.6 }), id: 'new-2' },
    ]);
  });

  it('with the family name last, wherever its column stands', () => {
    const { people } = imported(
      ['Surname', 'Born', 'First name'],
      ['name', 'birthYear', 'name'],
      [
        ['Marn', '2013', 'Quib'],
        ['Vell', '2012', ''],
      ],
    );
    expect(people?.map(({ name }) => name)).toEqual(['Quib Marn', 'Vell']);
  });

  it('all or none: each problem has its line, its column and what to do', () => {
    const result = imported(
      ['Who', 'Born', 'Tall'],
      ['name', 'birthYear', 'stature'],
      [
        ['Quib', '2013', '170 cm'],
        ['', '2012', ''],
        ['Žo', '12', '69'],
      ],
    );
    expect(result).toEqual({
      people: null,
      doubles: [],
      problems: [
        { line: 3, column: 'Who', say: expect.stringMatching(/Type one/) },
        { line: 4, column: 'Born', say: expect.stringMatching(/four digits/) },
        { line: 4, column: 'Tall', say: expect.stringMatching(/Write the unit/) },
      ],
    });
  });

  it('not without a column for the name, nor with two for one thing, nor without a line', () => {
    const cells = [['Quib', '2013']];
    expect(imported(['A', 'B'], [null, 'birthYear'], cells).problems).toEqual([
      { line: null, column: null, say: expect.stringMatching(/No column is chosen for the name/) },
    ]);
    expect(imported(['A', 'B', 'C'], ['name', 'squad', 'squad'], cells).problems).toEqual([
      { line: null, column: null, say: expect.stringMatching(/^"B" and "C" are chosen/) },
    ]);
    expect(imported(['A'], ['name'], []).problems).toEqual([
      { line: null, column: null, say: expect.stringMatching(/no line with a person/) },
    ]);
  });

  it('and doubles are named and left out: those that are there stay as they are', () => {
    const known = [someone('Quib  Marn', { birthYear: 2013 }), someone('Vell')];
    const { people, doubles } = imported(
      ['Name', 'Born'],
      ['name', 'birthYear'],
      [
        ['QUIB MARN', '2013'],
        ['Quib Marn', '2012'],
        ['Žo', ''],
        ['Zo', ''],
        ['Vell', '2010'],
        ['Vell', ''],
      ],
      [{ ...known[0]!, name: 'Quib Marn' }, known[1]!],
    );
    expect(people?.map(({ name, birthYear }) => [name, birthYear])).toEqual([
      ...[
        ['Quib Marn', 2012],
        ['Žo', null],
        ['Vell', 2010],
      ],
    ]);
    expect(doubles).toEqual([
      { line: 2, name: 'QUIB MARN', birthYear: 2013, of: 'known' },
      { line: 5, name: 'Zo', birthYear: null, of: { line: 4 } },
      { line: 7, name: 'Vell', birthYear: null, of: 'known' },
    ]);
  });
});

describe('people are exported', () => {
  it('with titles that are guessed again', () => {
    const [titles = []] = peopleRows([]);
    expect(guessColumns(columnsOf(...titles))).toEqual([
      ...['name', 'squad', 'birthYear', 'sex', 'stature', 'knee'],
      ...['angleTool', 'mindText', 'guardianAgreedOn'],
    ]);
  });

  it('with how each area stands', () => {
    const at = { session: 's', on: '2031-03-01', isDue: false };
    const open: Open = {
      overhead: null,
      squat: { ...at, outcome: 'working', rung: 0, waits: false, dueOn: '2031-03-08' },
      hinge: { ...at, outcome: 'referred', rung: null, waits: true, dueOn: null },
    };
    const rows = standingRows(
      [someone('Quib', { squad: 'Early' }), someone('Žo')],
      new Map([['Quib', open]]),
    );
    expect(rows[0]).toHaveLength(14);
    expect(rows[1]).toEqual([
      ...['Quib', 'Early', '', '', '', '', 'working', '0', '2031-03-01', '2031-03-08'],
      ...['referred', '', '2031-03-01', 'a licensed professional first'],
    ]);
    expect(rows[2]).toEqual(['Žo', ...Array<string>(13).fill('')]);
  });
});
