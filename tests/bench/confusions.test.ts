import { describe, expect, it } from 'vitest';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import { confusionFigures } from './hearing/confusions';
import type { Done } from './hearing/figures';
import { SHIPPED } from '../sounds/speakers';

/** What was said and what our ear made of it. */
const heard = (said: string, heardAs: string, outcome: 'accepted' | 'wrong'): Done[number] => ({
  job: {
    kind: 'reply',
    part: 'replies',
    half: 'tuned',
    condition: { name: 'clean', noise: null, decibels: null, reverb: false },
    wanted: { prompt: 'check/overhead-passive', text: said, reply: NO_REPLY },
    isInGrammar: true,
    spoken: { speaker: SHIPPED, text: said, rate: 1 },
    seed: 1,
    ears: ['ours'],
  },
  answers: [
    {
      kind: 'reply',
      ear: 'ours',
      outcome,
      heard: heardAs,
      confidence: 1,
      why: null,
      delayMilliseconds: null,
      waitMilliseconds: null,
      following: null,
      lookMilliseconds: [],
    },
  ],
});
const right = (text: string) => heard(text, text, 'accepted');

describe('the lint beside what the ear confused', () => {
  it('counts what it would refuse, and how many other replies sound less alike', () => {
    const [figure] = confusionFigures([
      heard('one fifteen', 'one fifty', 'wrong'),
      heard('heels up', 'hills up', 'wrong'),
      ...['one fifty', 'ribs flared', 'limited', 'right hold'].map(right),
    ]);
    expect(figure).toMatchObject({ half: 'tuned', pairs: 2, named: 2 });
    expect(figure?.nearer?.percent).toBe(100);
  });

  it('sees where what was confused sounds nothing alike', () => {
    const [figure] = confusionFigures([
      heard('limited', 'ribs flared', 'wrong'),
      ...['ribs flared', 'limit it', 'limits'].map(right),
    ]);
    expect(figure).toMatchObject({ pairs: 1, named: 0 });
    expect(figure?.nearer?.percent).toBe(0);
  });
});
