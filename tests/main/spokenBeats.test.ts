import { expect, it } from 'vitest';
import { createSpokenBeats } from '../../src/main/spokenBeats';
import type { ToneName, Voice } from '../../src/ports';
import { clock, pass, stopTime } from '../voice/clock';

stopTime();

/** A voice that takes 400 ms for each count, or can say none. */
function counting(can = true) {
  const heard: { atMilliseconds: number; what: string }[] = [];
  const begun = clock.now();
  const note = (what: string) => heard.push({ atMilliseconds: clock.now() - begun, what });
  const voice: Voice = {
    say(text, { ended }) {
      if (can) note(text);
      const timer = setTimeout(() => ended(can ? 'spoken' : 'failed'), can ? 400 : 0);
      return () => {
        clearTimeout(timer);
        note(`${text} cut off`);
      };
    },
    prepare: () => undefined,
    adjust: () => undefined,
    duck: () => undefined,
  };
  const tones = { play: (name: ToneName) => void note(name), hush: () => undefined };
  return { beats: createSpokenBeats({ voice, tones, clock }), heard, begun };
}

it('counts are said at their moment', async () => {
  const { beats, heard, begun } = counting();
  beats.place('uno', begun + 120);
  beats.place('dos', begun + 1120);
  await pass(2000);
  expect(heard).toEqual([
    { atMilliseconds: 120, what: 'uno' },
    { atMilliseconds: 1120, what: 'dos' },
  ]);
});

it('a count without words, and one that cannot be said, is the tone', async () => {
  const { beats, heard, begun } = counting(false);
  beats.place(null, begun + 100);
  beats.place('uno', begun + 1000);
  await pass(2000);
  expect(heard.map(({ what }) => what)).toEqual(['countdown', 'countdown']);
});

it('what is cancelled is not said, or is silent at once', async () => {
  const { beats, heard, begun } = counting();
  const before = beats.place('uno', begun + 500);
  before();
  const during = beats.place('dos', begun + 1000);
  await pass(1200);
  during();
  expect(heard.map(({ what }) => what)).toEqual(['dos', 'dos cut off']);
});

it('a count that comes far too late is left out', async () => {
  const { beats, heard, begun } = counting();
  await pass(1000);
  beats.place('uno', begun);
  await pass(1000);
  expect(heard).toEqual([]);
});
