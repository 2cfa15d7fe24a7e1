import { describe, expect, test } from 'vitest';
import type { Grammar } from '../../src/domain/hearing/grammar';
import { networkOf } from '../../src/ear/network';
import { BLANK, OUTPUTS, outputOf } from '../../src/ear/phones';
import { posteriorsOf, type Posteriors } from '../../src/ear/posteriors';
import { besideEachOther, decodeTogether } from '../../src/ear/together';
import { lexiconOf, phrases } from './grammars';

type Said = { phone: string; as?: string; likely?: [number, number] } | null;

/**
 * What a head makes of these phones, two rows each and one of silence after; null is silence.
 * `likely`: how sure it is of the phone, and of the one it may be taken for.
 */
function rowsOf(phones: Said[]): Posteriors {
  const logits = new Float32Array((3 * phones.length + 1) * OUTPUTS);
  const put = (row: number, output: number, value: number) => {
    logits[row * OUTPUTS + output] = value;
  };
  for (let row = 0; row <= 3 * phones.length; row += 1) {
    const one = phones[Math.floor(row / 3)] ?? null;
    if (one === null || row % 3 === 2) put(row, BLANK, 12);
    else {
      const [own, other] = one.likely ?? [12, 0];
      put(row, outputOf(one.phone)!, own);
      if (one.as !== undefined) put(row, outputOf(one.as)!, other);
    }
  }
  return posteriorsOf(logits);
}
const said = (text: string) => text.split(' ').map((phone) => ({ phone }));

const heard = (grammar: Grammar, first: Posteriors, second: Posteriors) => {
  const lexicon = lexiconOf(grammar);
  return decodeTogether(networkOf(grammar, lexicon), lexicon, besideEachOther(first, second));
};

describe('two heads over one sound', () => {
  const replies = phrases('check', ['held', 'help', 'lost']);

  test('what one takes for another reply is heard right where the other is surer', () => {
    const mistaken = rowsOf([...said('HH EH L'), { phone: 'P', as: 'D', likely: [9, 8] }]);
    const clear = rowsOf([...said('HH EH L'), { phone: 'D', as: 'P', likely: [12, 0] }]);
    expect(heard(replies, mistaken, mistaken)?.text).toBe('help');
    expect(heard(replies, mistaken, clear)?.text).toBe('held');
    expect(heard(replies, clear, mistaken)?.text).toBe('held');
  });

  test('where they hear different replies, the other one is not far behind', () => {
    const together = heard(replies, rowsOf(said('HH EH L D')), rowsOf(said('L AO S T')));
    const alone = heard(replies, rowsOf(said('HH EH L D')), rowsOf(said('HH EH L D')));
    const lead = (decoded: typeof together) => decoded!.score - decoded!.others[0]!.score;
    expect(lead(together)).toBeLessThan(lead(alone));
    expect(together!.fitPerPhone).toBeLessThan(alone!.fitPerPhone);
  });

  test('both agree: as sure as either by itself', () => {
    const rows = rowsOf(said('L AO S T'));
    const together = heard(replies, rows, rows)!;
    expect(together.text).toBe('lost');
    expect(together.sure.flat()).toHaveLength(4);
    for (const sure of together.sure.flat()) expect(sure).toBeGreaterThan(-0.01);
  });

  test('a first word that one head leaves out is no talk of another before the reply', () => {
    const left = said('W EY T SH IH F T IH D');
    const stop = said('S T AA P');
    const whole = rowsOf([...left, null, null, ...stop]);
    // Of the first word it hears nothing, so for it the talk begins with the last.
    const deaf = rowsOf([...left.map(() => null), null, null, ...stop]);
    expect(deaf.talk!.began).toBeLessThan(whole.talk!.began);
    for (const heads of [besideEachOther(deaf, whole), besideEachOther(whole, deaf)])
      expect(heads.map(({ talk }) => talk)).toEqual([whole.talk, whole.talk]);
  });

  test('nothing where neither hears an utterance', () => {
    const nothing = posteriorsOf(new Float32Array(OUTPUTS));
    expect(heard(replies, nothing, nothing)).toBeNull();
  });
});
