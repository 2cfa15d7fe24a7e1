import { describe, expect, it } from 'vitest';
import { numberAt, numberSpoken } from '../../../src/domain/hearing/numbers';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const { numbers } = book.vocabulary;

const UNITS = [
  ...['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'],
  ...['eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen'],
  'nineteen',
];
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

const underHundred = (value: number): string =>
  value < 20
    ? UNITS[value]!
    : [TENS[Math.floor(value / 10)], UNITS[value % 10]].filter((word) => word !== 'zero').join(' ');

/** Every way in which a whole number from 0 to 200 is spoken. */
function formsOf(value: number): string[] {
  const rest = value % 100;
  if (value < 100) return [String(value), underHundred(value)];
  const hundred = value < 200 ? ['one hundred', 'a hundred', 'hundred'] : ['two hundred'];
  if (rest === 0) return [String(value), ...hundred];
  const digits = [...String(value)].map((digit) => UNITS[Number(digit)]!);
  return [
    String(value),
    ...hundred.flatMap((words) => [
      `${words} ${underHundred(rest)}`,
      `${words} and ${underHundred(rest)}`,
    ]),
    rest < 10 ? `one oh ${UNITS[rest]!}` : `one ${underHundred(rest)}`,
    digits.join(' '),
    digits.join(' ').replace(/zero/g, 'oh'),
  ];
}

describe('numbers as spoken', () => {
  it.each(Array.from({ length: 201 }, (_, value) => value))(
    '%d is read from all its forms',
    (value) => {
      for (const form of formsOf(value)) {
        const words = form.replace(/^a /, '').split(' ');
        expect({ form, ...numberAt(numbers, words, 0) }).toEqual({
          form,
          value,
          length: words.length,
        });
      }
      const spoken = numberSpoken(numbers, value).split(' ');
      expect(numberAt(numbers, spoken, 0)).toEqual({ value, length: spoken.length });
    },
  );

  it('are angles in an overhead reply, whatever form they have', () => {
    for (let value = 20; value <= 200; value++)
      for (const form of formsOf(value)) {
        const text = `left ${form} limited`;
        const { reply, verdict } = understand(book, 'check/overhead-passive', text, {
          passLineDegrees: 155,
          painGoesOnUpTo: 2,
          confidence: 1,
        });
        expect({ text, verdict, angle: reply?.angleDegrees }).toEqual({
          text,
          verdict: 'accept',
          angle: value,
        });
      }
  });

  it('are no angle where something is counted', () => {
    for (const text of [
      'knees forward on three reps',
      'knees forward on rep forty',
      'clean for 20 reps',
    ]) {
      const options = { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 };
      expect(understand(book, 'set/bell-hinge', text, options).reply?.angleDegrees).toBeNull();
    }
  });
});
