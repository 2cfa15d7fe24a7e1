import { describe, expect, test } from 'vitest';
import { lexiconOf, UNFITTED, type Reading } from '../../src/ear/coach/coachEar';
import { swapped } from '../../src/ear/coach/fittedReader';
import { fitted } from '../../src/ear/coach/fitting';
import { aligned, freeRowOf } from '../../src/ear/coach/rows';
import { lexiconFor } from '../../src/ear/lexicon';
import { outputOf, OUTPUTS } from '../../src/ear/phones';
import { posteriorsOf } from '../../src/ear/posteriors';

const lexicon = lexiconFor(
  'pass held limited lost knees knee came forward yes no wait rep rap bent bend done one'.split(
    ' ',
  ),
);
const reading = (text: string, phones: string, confidence: number | null = 0.9): Reading => ({
  text,
  phones: phones.split(' '),
  confidence,
});
const times = (count: number, each: Reading) => Array.from({ length: count }, () => each);

describe('what readings teach of a coach', () => {
  test('a word that is twice heard the same other way gets that pronunciation', () => {
    const learnt = fitted(times(2, reading('limited', 'L IH M AH CH AH D')), lexicon);
    expect(learnt.variants).toEqual({ limited: ['L IH M AH CH AH D'] });
    expect(lexiconOf(lexicon, learnt)['limited']).toContainEqual('L IH M AH CH AH D'.split(' '));
    expect(lexicon['limited']).not.toContainEqual('L IH M AH CH AH D'.split(' '));
  });

  test('once proves nothing, and as the dictionary has it teaches nothing', () => {
    expect(fitted([reading('limited', 'L IH M AH CH AH D')], lexicon)).toEqual(UNFITTED);
    expect(fitted(times(4, reading('came forward', 'K EY M F AO R W ER D')), lexicon)).toEqual(
      UNFITTED,
    );
  });

  test('a pronunciation that is as near to another word is not learnt', () => {
    expect(fitted(times(2, reading('rep', 'R AE P')), lexicon).variants).toEqual({});
    expect(fitted(times(2, reading('rep', 'R AH P')), lexicon).variants).toEqual({});
  });

  test('what was something else teaches nothing', () => {
    expect(fitted(times(5, reading('pass', 'HH OW L D AA N P L IY Z')), lexicon)).toEqual(UNFITTED);
  });

  test('a phone that is mostly another is learnt over all words', () => {
    const readings = [
      reading('knees', 'N IY S'),
      reading('yes knees', 'Y EH S N IY S'),
      reading('knees came', 'N IY S K EY M'),
      reading('no', 'N OW'),
    ];
    expect(fitted(readings, lexicon).swaps).toEqual([{ said: 'Z', heard: 'S', share: 0.9 }]);
  });

  test('where two words differ by just these phones, each stays nearer to itself', () => {
    const readings = times(3, reading('bend held', 'B EH N T HH EH L T'));
    expect(fitted(readings, lexicon).swaps).toEqual([{ said: 'D', heard: 'T', share: 0.5 }]);
  });

  test('a voice that is heard well is believed a little later, one that is not is left as it is', () => {
    expect(fitted(times(20, reading('no', 'N OW', 0.99)), lexicon).offset).toBe(-0.7);
    expect(fitted(times(20, reading('no', 'N OW', 0.85)), lexicon).offset).toBeCloseTo(-0.12, 2);
    expect(fitted(times(20, reading('no', 'N OW', 0.6)), lexicon).offset).toBe(0);
    expect(fitted(times(8, reading('no', 'N OW', 0.99)), lexicon).offset).toBe(0);
    const lost = [
      ...times(20, reading('no', 'N OW', 0.99)),
      ...times(4, reading('no', 'N OW', null)),
    ];
    expect(fitted(lost, lexicon).offset).toBe(0);
  });
});

describe('rows of phones', () => {
  test('each phone gets what was heard of it', () => {
    const { pieces } = aligned(['K', 'EY', 'M'], ['K', 'IY', 'Y', 'M']);
    expect(pieces).toEqual([['K'], ['IY', 'Y'], ['M']]);
    expect(aligned(['S', 'T', 'AA', 'P'], ['S', 'AA', 'P']).pieces[1]).toEqual([]);
    expect(aligned(['P'], ['P']).cost).toBe(0);
  });

  const rowsOf = (phones: (string | null)[]) => {
    const logits = new Float32Array(phones.length * OUTPUTS);
    phones.forEach((phone, row) => {
      logits[row * OUTPUTS + (phone === null ? 0 : (outputOf(phone) ?? 0))] = 8;
    });
    return posteriorsOf(logits);
  };

  test('are read off without blanks and repeats', () => {
    expect(freeRowOf(rowsOf([null, 'N', 'N', null, 'OW', 'OW']))).toEqual(['N', 'OW']);
  });

  test('with a swap the phone that was meant counts where the other was heard', () => {
    const heard = rowsOf(['S']);
    const swaps = [{ said: 'Z', heard: 'S', share: 0.5 }];
    const { log } = swapped(heard, { ...UNFITTED, swaps });
    const [s, z] = [outputOf('S') ?? 0, outputOf('Z') ?? 0];
    expect((log[z] ?? 0) - (log[s] ?? 0)).toBeCloseTo(Math.log(0.5), 2);
    expect(log[s]).toBe(heard.log[s]);
    expect(swapped(heard, UNFITTED)).toBe(heard);
  });
});
