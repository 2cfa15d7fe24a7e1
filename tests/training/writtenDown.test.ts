import { expect, it } from 'vitest';
import { unpackedRnc } from './rnc';
import { spokenIn, surely } from './writtenDown';

const KNOWN = (word: string) => ['keep', 'it', 'there', "don't"].includes(word);

it('learns of a line only what the decoder was sure of, in words that have a sound', () => {
  const sure = { text: 'Keep it there!', score: -0.1, worst: -0.5 };
  expect(surely(sure, KNOWN)).toEqual(['keep', 'it', 'there']);
  expect(surely({ ...sure, text: "Don't keep it." }, KNOWN)).toEqual(["don't", 'keep', 'it']);
  expect(surely({ ...sure, score: -0.5 }, KNOWN)).toBeNull();
  expect(surely({ ...sure, worst: -2 }, KNOWN)).toBeNull();
  expect(surely({ ...sure, text: 'Keep 2.' }, KNOWN)).toBeNull();
  expect(surely({ ...sure, text: 'Keep zorbing.' }, KNOWN)).toBeNull();
  expect(surely({ ...sure, text: '...' }, KNOWN)).toBeNull();
});

it('cuts silence off both ends of a line, and leaves out what is too short or too long', () => {
  const line = new Float32Array(48_000);
  line.fill(0.5, 16_000, 32_000);
  expect(spokenIn(line)).toHaveLength(16_000 + 10 * 160);
  expect(spokenIn(line.slice(0, 17_000))).toBeNull();
  expect(spokenIn(new Float32Array(100_000).fill(0.5))).toBeNull();
});

it('refuses what was not packed', () => {
  expect(() => unpackedRnc(new Uint8Array(40))).toThrow('Not packed');
});
