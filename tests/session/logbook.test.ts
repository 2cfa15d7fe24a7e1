import { expect, it } from 'vitest';
import type { Entry, Fact } from '../../src/domain/log';
import { entriesFor } from '../../src/session/logbook';

const paused: Fact = { type: 'paused', source: { by: 'hand', text: '', confidence: 1 } };
const logbook = { session: 'mon', device: 'here', startedAtMilliseconds: 0 };
const entry = (device: string, number: number): Entry => ({
  ...paused,
  id: `mon:${device}:${String(number)}`,
  atSeconds: number,
});

it('an entry never gets a number that is there, also where another device went on less far', () => {
  // This device came to 4, the other went on from 2 to 3, and its end came in last.
  const log = [1, 2, 4].map((number) => entry('here', number)).concat(entry('there', 3));
  const [next] = entriesFor(logbook, log, [paused], 9000);
  expect(next?.id).toBe('mon:here:5');
});
