import { describe, expect, it } from 'vitest';
import { blocksFor } from '../../../src/domain/athlete';
import { ageOn, athleteOf, consentMissing, mayBeMinor } from '../../../src/domain/people/age';
import { someone } from './someone';

describe('the age by a year of birth', () => {
  it('is the one that is surely reached: the birthday may still come', () => {
    expect(ageOn(2013, '2031-01-01')).toBe(17);
    expect(ageOn(2013, '2031-12-30')).toBe(17);
    expect(ageOn(2013, '2031-12-31')).toBe(18);
    expect(ageOn(2013, '2032-01-01')).toBe(18);
  });
});

describe("a guardian's consent", () => {
  const born = (birthYear: number | null, guardianAgreedOn: string | null = null) =>
    someone('Marn', { birthYear, guardianAgreedOn });

  it('is missing where somebody may be under 18 and none is noted by then', () => {
    expect(consentMissing(born(2013), '2031-06-01')).toBe(true);
    expect(consentMissing(born(2020), '2031-06-01')).toBe(true);
    expect(consentMissing(born(2013, '2031-05-31'), '2031-06-01')).toBe(false);
    expect(consentMissing(born(2013, '2031-06-01'), '2031-06-01')).toBe(false);
    expect(consentMissing(born(2013, '2031-06-02'), '2031-06-01')).toBe(true);
  });

  it('is not asked for of adults, nor where no year is known', () => {
    expect(consentMissing(born(2012), '2031-01-01')).toBe(false);
    expect(consentMissing(born(null), '2031-01-01')).toBe(false);
    expect(mayBeMinor(born(2012), '2031-01-01')).toBe(false);
    expect(mayBeMinor(born(2013), '2031-01-01')).toBe(true);
  });
});

describe('what a session knows of a person', () => {
  it('is what is measured, with the age surely reached', () => {
    const person = someone('Marn', {
      ...{ birthYear: 2000, sex: 'female', statureMillimetres: 1700, kneeMillimetres: 480 },
    });
    expect(athleteOf(person, '2031-06-01')).toEqual({
      ...{ ageYears: 30, sex: 'female', statureMillimetres: 1700, kneeMillimetres: 480 },
    });
    expect(athleteOf(someone('Marn'), '2031-06-01')).toEqual({});
  });

  it.each([
    ['the age is not known', { statureMillimetres: 1700 }],
    ['they may be under 17', { statureMillimetres: 1700, birthYear: 2014 }],
    ['nothing is known of that height', { statureMillimetres: 2100, birthYear: 2000 }],
  ])('leaves out a stature that gives no knee, where %s', (_, fields) => {
    const athlete = athleteOf(someone('Marn', fields), '2031-06-01');
    expect(athlete).not.toHaveProperty('statureMillimetres');
    expect(blocksFor(athlete)).toBeNull();
    const measured = athleteOf(someone('Marn', { ...fields, kneeMillimetres: 500 }), '2031-06-01');
    expect(measured).toHaveProperty('statureMillimetres');
    expect(blocksFor(measured)?.errorMillimetres).toBe(0);
  });
});
