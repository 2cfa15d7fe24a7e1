import { expect, it, vi } from 'vitest';
import { breathing } from '../../src/ear/breathing';

it('nobody who breathes at the same time as another waits for ever', async () => {
  const made: MessageChannel[] = [];
  vi.stubGlobal(
    'MessageChannel',
    class extends MessageChannel {
      constructor() {
        super();
        made.push(this);
      }
    },
  );
  const breathe = breathing();
  const heard: string[] = [];
  await Promise.all([
    breathe().then(() => heard.push('first')),
    breathe().then(() => heard.push('second')),
  ]);
  expect(heard).toEqual(['first', 'second']);
  for (const channel of made) channel.port1.close();
});
