import { describe, expect, test } from 'vitest';
import { NO_REPLY } from '../../src/domain/hearing/reply';
import { createHands } from '../../src/ear/hands';
import { manyEars } from '../../src/ear/manyEars';
import type { Hearing } from '../../src/ports';
import { earContract } from './contract';
import { puppetEar } from './doubles';

const yes = { ...NO_REPLY, command: 'yes' } as const;

earContract('Hands', () => {
  const hands = createHands();
  return { ear: hands, answer: () => hands.reply(yes) };
});

earContract('The device ear on a rude worker', () => {
  const { ear, worker } = puppetEar();
  let utterance = 0;
  return {
    ear,
    answer: () => {
      utterance += 1;
      worker().tell({ type: 'heard', utterance, hearing: { type: 'onset' } });
      const prompt = worker().attended!;
      for (let time = 0; time < 2; time += 1)
        worker().tell({
          type: 'heard',
          utterance,
          hearing: { type: 'words', text: 'yes', confidence: 0.9, prompt },
        });
    },
  };
});

earContract('Many ears', () => {
  const hands = createHands();
  return { ear: manyEars([hands, puppetEar().ear]), answer: () => hands.reply(yes) };
});

describe('Many ears', () => {
  test('hear by each of them, and attend with all', () => {
    const hands = createHands();
    const device = puppetEar();
    const ear = manyEars([hands, device.ear]);
    const heard: Hearing[] = [];
    ear.listen((hearing) => heard.push(hearing));
    ear.attend('confirm');
    hands.reply(yes);
    device.worker().crash();
    expect(heard).toEqual([
      { type: 'reply', reply: yes, prompt: 'confirm' },
      { type: 'deaf', why: 'worker-failed' },
    ]);
    expect(device.worker().attended).toBe('confirm');
  });
});
