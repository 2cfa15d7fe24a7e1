import { expect, test } from 'vitest';
import { createDoor } from '../../src/main/door';
import type { Hearing } from '../../src/ports';

const DEAF: Hearing = { type: 'deaf', why: 'denied' };
const told = (door: ReturnType<typeof createDoor>) => {
  const heard: Hearing[] = [];
  return { heard, leave: door.listen((hearing) => heard.push(hearing)) };
};

test('a microphone that is refused is told to the session that runs', () => {
  const door = createDoor();
  const { heard, leave } = told(door);
  door.shut('denied');
  expect(heard).toEqual([DEAF]);
  leave();
  door.shut('denied');
  expect(heard).toEqual([DEAF]);
});

test('and to a session that begins only after the refusal', () => {
  const door = createDoor();
  door.shut('denied');
  expect(told(door).heard).toEqual([DEAF]);
});

test('not to one that begins by touch afterwards, nor once it has opened', () => {
  const door = createDoor();
  door.shut('denied');
  door.open();
  expect(told(door).heard).toEqual([]);
});
