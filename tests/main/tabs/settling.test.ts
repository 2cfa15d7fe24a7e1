import { expect, it } from 'vitest';
import { settling } from '../../../src/main/tabs/settling';
import { keepTrying } from '../../../src/records/keepTrying';
import { memoryRecords } from '../../../src/records/memoryRecords';
import { problem, RecordError } from '../../../src/records/problems';
import { finding, started } from '../../records/entries';
import { handClock } from '../../records/handClock';
import { settle } from './browser';

/** Records on a disk that answers when it is told to. */
function slow() {
  const memory = memoryRecords();
  const waiting: (() => void)[] = [];
  let isFull = false;
  const clock = handClock();
  const records = settling(
    keepTrying(
      {
        ...memory,
        append: (entry, done) =>
          isFull ? done(problem('full')) : waiting.push(() => memory.append(entry, done)),
      },
      clock,
    ),
  );
  const write = async () => {
    waiting.shift()?.();
    await settle();
  };
  return {
    ...{ records, memory, write, clock },
    fill: (is: boolean) => {
      isFull = is;
    },
  };
}

it('a session is let go only once all of it is on the disk, what comes meanwhile too', async () => {
  const { records, memory, write } = slow();
  records.append(started('mon'), () => undefined);
  let isSettled = false;
  const settled = records.settled().then(() => {
    isSettled = true;
  });
  records.append(finding('mon', 1), () => undefined);
  await write();
  expect(isSettled).toBe(false);
  await write();
  await settled;
  expect(await memory.read('mon')).toHaveLength(2);
});

it('what could not be written keeps it here, and says why', async () => {
  const { records, fill, write, clock } = slow();
  fill(true);
  records.append(started('mon'), () => undefined);
  await expect(records.settled()).rejects.toBeInstanceOf(RecordError);
  // Until there is room: it was held, and is written then.
  fill(false);
  clock.pass(1000);
  await write();
  await records.settled();
});

it('nothing said, nothing to wait for', async () => {
  await slow().records.settled();
});
