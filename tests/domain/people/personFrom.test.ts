import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { personFrom, type PersonFields } from '../../../src/domain/people/personFrom';
import { someone } from './someone';

const read = (fields: PersonFields) => personFrom(fields, { id: 'p1', today: '2031-06-01' });
const problems = (fields: PersonFields) => read(fields).problems;

describe('a person out of fields', () => {
  it('needs a name, and takes a year of birth beside it', () => {
    expect(read({ name: 'Quib Marn' })).toEqual({
      person: { ...someone('Quib Marn'), id: 'p1' },
      problems: [],
    });
    expect(read({ name: 'Quib', birthYear: '2013' }).person).toMatchObject({
      ...{ name: 'Quib', birthYear: 2013 },
    });
  });

  it('takes everything else as people write it', () => {
    const { person } = read({
      ...{ name: '  Quib\u00A0 Marn\t', squad: ' Early   birds ', birthYear: ' 2005 ', sex: 'F' },
      ...{ stature: `5'9"`, knee: '48', angleTool: 'by eye', guardianAgreedOn: '2031-06-01' },
      mindText: ' left wrist \r\n no hanging ',
    });
    expect(person).toEqual({
      ...someone('Quib Marn', { squad: 'Early birds', birthYear: 2005, sex: 'female' }),
      ...{ id: 'p1', statureMillimetres: 1752.6, kneeMillimetres: 480, angleTool: 'eye' },
      ...{ guardianAgreedOn: '2031-06-01', mindText: 'left wrist\nno hanging' },
    });
    expect(read({ name: 'Zo\u0308e', angleTool: 'Tilt sensor', sex: 'boy' }).person).toMatchObject({
      ...{ name: 'Zöe', angleTool: 'tilt-sensor', sex: 'male' },
    });
  });

  it.each<[PersonFields, keyof PersonFields, RegExp]>([
    [{ name: '' }, 'name', /no name. Type one/],
    [{ name: ' \t ' }, 'name', /no name. Type one/],
    [{ name: '--' }, 'name', /no letter/],
    [{ name: 'M'.repeat(81) }, 'name', /at most 80 characters; this has 81. Shorten/],
    [{ name: 'Ma\u0000rn' }, 'name', /U\+0000.*type it anew/],
    [{ name: 'Ma\u001Brn' }, 'name', /U\+001B/],
    [{ name: 'Marn\u202Egpj' }, 'name', /U\+202E/],
    [{ name: 'Marn\u2067' }, 'name', /U\+2067/],
    [{ name: 'Ma\u200Brn' }, 'name', /U\+200B/],
    [{ name: 'Ma\uD800rn' }, 'name', /U\+D800/],
    [{ name: 'Q', squad: 'S'.repeat(81) }, 'squad', /squad has at most 80/],
    [{ name: 'Q', birthYear: '13' }, 'birthYear', /four digits/],
    [{ name: 'Q', birthYear: '2013.5' }, 'birthYear', /four digits/],
    [{ name: 'Q', birthYear: '1920' }, 'birthYear', /1921 to 2026, not 1920/],
    [{ name: 'Q', birthYear: '2027' }, 'birthYear', /1921 to 2026/],
    [{ name: 'Q', sex: 'x' }, 'sex', /female or male, or leave it empty/],
    [{ name: 'Q', stature: '69' }, 'stature', /no unit/],
    [{ name: 'Q', stature: '2.5 m' }, 'stature', /1000 to 2300 mm/],
    [{ name: 'Q', stature: '1'.repeat(50_000) }, 'stature', /^That is no length/],
    [{ name: 'Q', knee: '20 cm' }, 'knee', /250 to 700 mm/],
    [{ name: 'Q', angleTool: 'ruler' }, 'angleTool', /eye, inclinometer/],
    [{ name: 'Q', mindText: 'm'.repeat(501) }, 'mindText', /at most 500/],
    [{ name: 'Q', mindText: 'a\u0007b' }, 'mindText', /U\+0007/],
    [{ name: 'Q', guardianAgreedOn: '1.3.2031' }, 'guardianAgreedOn', /such as 2031-06-01/],
    [{ name: 'Q', guardianAgreedOn: '2031-02-29' }, 'guardianAgreedOn', /no date/],
    [{ name: 'Q', guardianAgreedOn: '2031-06-02' }, 'guardianAgreedOn', /still to come/],
  ])('%j is refused at %s', (fields, field, say) => {
    expect(problems(fields)).toEqual([{ field, say: expect.stringMatching(say) }]);
    expect(read(fields).person).toBeNull();
    // A long one is not repeated whole.
    expect(problems(fields)[0]!.say.length).toBeLessThan(250);
  });

  it('tells every problem at once', () => {
    const fields = { name: '', birthYear: 'x', knee: 'y' };
    expect(problems(fields).map(({ field }) => field)).toEqual(['name', 'birthYear', 'knee']);
  });

  it('lets letters of any script through, and joins that scripts need', () => {
    for (const name of ['Ñusta Ødegård', '李雷', 'نام\u200Cها', "O'Brien-Qux", 'J. R.']) {
      expect(read({ name }).person?.name).toBe(name.normalize('NFC'));
    }
  });

  it('never throws, whatever is typed, and what it gives reads the same again', () => {
    const text = fc.option(fc.string({ unit: 'binary' }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.record({ name: fc.string({ unit: 'grapheme' }), squad: text, mindText: text }),
        fc.record({ birthYear: text, stature: text, guardianAgreedOn: text }),
        (some, others) => {
          const { person } = read({ ...some, ...others });
          if (person === null) return;
          const { name, squad, mindText } = person;
          const again = read({ name, squad: squad ?? undefined, mindText }).person;
          expect(again).toMatchObject({ name, squad, mindText });
        },
      ),
    );
  });
});
