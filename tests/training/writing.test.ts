import { expect, test } from 'vitest';
import { PHONES } from '../../src/ear/phones';
import { phrases } from '../ear/grammars';
import { writtenLines, type Kind } from './lines';
import { phoneDistance } from './near';

const write = (seed: number, onlyReplies = false) =>
  writtenLines({
    grammars: [phrases('confirm', ['yes', 'no', 'held', 'help', 'knees forward'])],
    urgent: ['stop'],
    common: [['window', 'orange', 'yet', 'nose', 'hell', 'past']],
    seed,
    lines: 300,
    onlyReplies,
  });

test('a small run writes lines of every kind, each with its phones', () => {
  const lines = write(1);
  expect(lines).toHaveLength(300);
  const kinds: Kind[] = [
    'dictionary',
    'mixed',
    'near',
    'number',
    'reply',
    'short',
    'talk',
    'urgent',
  ];
  expect([...new Set(lines.map(({ kind }) => kind))].sort()).toEqual(kinds);
  for (const { phones } of lines)
    for (const phone of phones) expect(PHONES[phone - 1]).toBeDefined();
  const yes = lines.find(({ words }) => words.join(' ') === 'yes')!;
  expect(yes.phones.map((phone) => PHONES[phone - 1])).toEqual(['Y', 'EH', 'S']);
});

test('the same seed writes the same, another seed something else', () => {
  expect(write(5)).toEqual(write(5));
  expect(write(5)).not.toEqual(write(6));
});

test('a reply comes with what it is easily taken for, never with itself', () => {
  const lines = write(2, true);
  const held = lines.find(({ words }) => words.join(' ') === 'held')!;
  const said = held.rivals.map((rival) => rival.map((phone) => PHONES[phone - 1]).join(' '));
  expect(said).toContain('HH EH L P');
  for (const { phones, rivals } of lines)
    expect(rivals.map((rival) => rival.join())).not.toContain(phones.join());
});

test('sounds that are alike are nearer than sounds that are not', () => {
  const far = (a: string, b: string) => phoneDistance(a.split(' '), b.split(' '));
  expect(far('P AE S', 'P AE S')).toBe(0);
  expect(far('S IH K S', 'S IH K Z')).toBeLessThan(far('S IH K S', 'S IH K AO'));
  expect(far('S IH K S T IY', 'S IH K S T IY N')).toBeLessThan(1);
  expect(phoneDistance(['P', 'AE', 'S'], ['L', 'OW', 'Z'], 1)).toBe(Infinity);
});
