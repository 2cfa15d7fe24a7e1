import { describe, expect, it } from 'vitest';
import { understand } from '../../../src/domain/hearing/understanding';
import { hearingBook } from './book';

const book = hearingBook();
const hear = (at: string, text: string, callWord: string | null = 'sayso') =>
  understand(book, at, text, { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1, callWord });
const PASSIVE = 'check/overhead-passive';

describe('with a call word', () => {
  it.each([
    [PASSIVE, 'sayso left one forty limited', { side: 'left', result: 'short', angleDegrees: 140 }],
    [PASSIVE, 'Sayso, ribs flared.', { result: 'lost', faults: ['ribs-flared'] }],
    [PASSIVE, 'keep that arm long, sayso left pass', { side: 'left', result: 'held' }],
    [PASSIVE, 'sayso left, sayso right pass', { side: 'right', result: 'held' }],
    ['idle', 'sayso next', { command: 'next' }],
  ])('at %s "%s" counts', (at, text, reply) => {
    expect(hear(at, text)).toMatchObject({ heard: text, reply });
  });

  it.each([
    [PASSIVE, 'left one forty limited'],
    [PASSIVE, 'pass'],
    [PASSIVE, 'left pass sayso'],
    [PASSIVE, 'sayso'],
    [PASSIVE, 'sayso, keep that arm long'],
    ['idle', 'next'],
    ['confirm', 'left limited'],
    ['confirm', 'next'],
  ])('at %s "%s" does not', (at, text) => {
    expect(hear(at, text).verdict).toBe('ignore');
  });

  it.each([
    [PASSIVE, 'stop', { command: 'stop' }],
    [PASSIVE, 'stop sayso', { command: 'stop' }],
    ['idle', 'hold on', { command: 'pause' }],
    ['idle', 'it hurts', { result: 'pain' }],
    [PASSIVE, 'limited, pain four', { result: 'pain', pain: 4 }],
    ['idle', 'chest pain', { redFlag: 'chest-pain' }],
    ['pain/how-much', 'four', { pain: 4 }],
    ['pain/kind', 'sharp', { painKind: 'sharp' }],
    ['confirm', 'yes', { command: 'yes' }],
    ['confirm', 'no', { command: 'no' }],
    ['confirm', 'no, one fifty', { angleDegrees: 150 }],
    ['confirm', 'ribs', { faults: ['ribs-flared'] }],
  ])('at %s "%s" acts without it', (at, text, reply) => {
    expect(hear(at, text)).toMatchObject({ reply });
    expect(hear(at, text).verdict).not.toBe('ignore');
  });

  it('is off where there is none', () => {
    expect(hear(PASSIVE, 'pass', null).verdict).toBe('accept');
    expect(hear(PASSIVE, 'coach left pass', 'coach').verdict).toBe('accept');
  });
});
