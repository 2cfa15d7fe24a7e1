import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BELL_HANDLE,
  BLOCK,
  KNEE,
  readLength,
  SOLE,
  STATURE,
  type Measure,
} from '../../../src/domain/measuring/length';

describe('a length as people write it', () => {
  it.each([
    ['175 cm', 1750],
    ['175cm', 1750],
    ['  175 CM ', 1750],
    ['175 centimetres', 1750],
    ['175 centimeters', 1750],
    ['1.75 m', 1750],
    ['1,75 m', 1750],
    ['1.75 metres', 1750],
    ['1750 mm', 1750],
    ['1,750 mm', 1750],
    ['1 m 75', 1750],
    ['1m75', 1750],
    ['1 m 75 cm', 1750],
    [`5'9"`, 1752.6],
    [`5'9`, 1752.6],
    [`5' 9"`, 1752.6],
    [`5’9”`, 1752.6],
    ['5′9″', 1752.6],
    [`5'9''`, 1752.6],
    ['5 ft 9 in', 1752.6],
    ['5 ft. 9 in.', 1752.6],
    ['5ft9', 1752.6],
    ['5 foot 9', 1752.6],
    ['5-foot-9', 1752.6],
    ['5 feet, 9 inches', 1752.6],
    ['5 feet and 9 inches', 1752.6],
    ['6 ft', 1828.8],
    ['69 in', 1752.6],
    ['69"', 1752.6],
    [`5'9½"`, 1765.3],
    [`5' 9 1/2"`, 1765.3],
    ['5 ft 9.5 in', 1765.3],
    ['5 ft 9,5 in', 1765.3],
    ['175', 1750],
    ['1.75', 1750],
    ['1,75', 1750],
    ['1750', 1750],
  ])('a stature of %s', (text, millimetres) => {
    expect(readLength(text, STATURE)).toBe(millimetres);
  });

  it.each<[string, Measure, number]>([
    ['48', KNEE, 480],
    ['480', KNEE, 480],
    ['19 in', KNEE, 482.6],
    ['0', SOLE, 0],
    ['20', SOLE, 20],
    ['2 cm', SOLE, 20],
    ['28', BELL_HANDLE, 280],
    ['10 cm', BLOCK, 100],
    ['100', BLOCK, 100],
    ['½ in', BLOCK, 12.7],
    ['1 1/2 in', BLOCK, 38.1],
  ])('%s of another measure', (text, measure, millimetres) => {
    expect(readLength(text, measure)).toBe(millimetres);
  });

  it('comes back from every way to write it', () => {
    const ways: ((millimetres: number) => string)[] = [
      (mm) => `${mm} mm`,
      (mm) => `${mm}`,
      (mm) => `${mm / 10} cm`,
      (mm) => `${mm / 10} cm`.replace('.', ','),
      (mm) => `${mm / 1000} m`,
      (mm) => `${mm / 25.4} in`,
      (mm) => `${Math.floor(mm / 304.8)}'${(mm % 304.8) / 25.4}"`,
      (mm) => `${Math.floor(mm / 304.8)} foot ${((mm % 304.8) / 25.4).toFixed(6)}`,
    ];
    const between = fc.integer({ min: STATURE.from, max: STATURE.to });
    fc.assert(
      fc.property(between, fc.constantFrom(...ways), (millimetres, way) => {
        // Feet and inches of a whole foot would be written 12 inches by their rounding.
        fc.pre(way(millimetres).includes('e') === false && 304.8 - (millimetres % 304.8) > 0.001);
        expect(readLength(way(millimetres), STATURE)).toBe(millimetres);
      }),
      { numRuns: 2000 },
    );
  });

  it('is a length inside its limits or a RangeError, whatever is written', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[-0-9.,' "/cmftin]{0,12}$/)),
        fc.constantFrom(STATURE, KNEE, SOLE, BELL_HANDLE, BLOCK),
        (text, measure) => {
          try {
            const length = readLength(text, measure);
            expect(length).toBeGreaterThanOrEqual(measure.from);
            expect(length).toBeLessThanOrEqual(measure.to);
          } catch (problem) {
            expect(problem).toBeInstanceOf(RangeError);
          }
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('what is no length, or could be two, is refused with what to write', () => {
  it.each<[string, Measure, RegExp]>([
    ['', STATURE, /is no length.*such as 175 cm/],
    ['tall', STATURE, /is no length/],
    ['about 175 cm', STATURE, /is no length/],
    ['-175 cm', STATURE, /is no length/],
    ['175 kg', STATURE, /is no length/],
    ['5 9', STATURE, /is no length/],
    ['175 cm 3 in', STATURE, /is no length/],
    ['1 m 8', STATURE, /is no length/],
    ['1.5 m 20', STATURE, /is no length/],
    ['1 m 100 cm', STATURE, /is no length/],
    ['5.5 ft 3 in', STATURE, /is no length/],
    ['9/8 in', BLOCK, /is no length/],
    [`5'12"`, STATURE, /after feet come 0 to 11 inches/],
    ['69', STATURE, /no unit: is it 69 in\? Write the unit/],
    ['5.9', STATURE, /no unit: is it 5.9 ft\?/],
    ['27', KNEE, /is it 27 cm or 27 in\?/],
    ['10', BLOCK, /is it 10 mm or 10 cm or 10 in\?/],
    ['300', STATURE, /no unit, and is no stature in any/],
    ['17 cm', STATURE, /is 170 mm.*1000 to 2300 mm.*check number and unit/],
    ['48 mm', KNEE, /is 48 mm.*A knee height is 250 to 700 mm/],
    ['0 cm', BLOCK, /A block is 1 to 600 mm/],
  ])('%j', (text, measure, message) => {
    expect(() => readLength(text, measure)).toThrow(RangeError);
    expect(() => readLength(text, measure)).toThrow(message);
  });
});
