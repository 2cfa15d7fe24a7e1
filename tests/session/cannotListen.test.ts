import { describe, expect, it } from 'vitest';
import { attachHeadset, createHands } from '../../src/ear/hands';
import { commandOf } from '../../src/screens/run/replies';
import { openBench } from './bench';

/** In the middle of a line, on a device whose ear hears nothing while Sayso speaks. */
function speaking() {
  const bench = openBench();
  bench.seconds(0.8);
  expect(bench.sounding()).not.toBeNull();
  const hands = createHands();
  hands.attend(bench.prompt());
  hands.listen(bench.ear);
  const buttons = new Map<string, () => void>();
  attachHeadset(hands, {
    setActionHandler: (action, run) => {
      if (run !== null) buttons.set(action, () => run({ action }));
    },
  });
  return { bench, hands, buttons };
}

describe('where the ear cannot hear over the voice', () => {
  it.each([
    ['the screen', ({ hands }: ReturnType<typeof speaking>) => hands.reply(commandOf('stop'))],
    ['a key', ({ hands }) => void hands.key({ key: 'Escape' })],
    ['the button of a headset', ({ buttons }) => buttons.get('pause')?.()],
  ])('%s stops at once', (_, stop) => {
    const room = speaking();
    const { bench } = room;
    const line = bench.sounding();
    const atMilliseconds = bench.clock.now();
    stop(room);
    expect(bench.tones.at(-1)).toBe('halted');
    expect(bench.sounding()).not.toBe(line);
    expect(bench.clock.now()).toBe(atMilliseconds);
  });
});
