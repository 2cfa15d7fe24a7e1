import { expect, test } from 'vitest';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';
import { ownVoiceFigure } from './ownVoice/ownVoice';
import { ownSoundsOf } from './ownVoice/session';

/** The bench hears whole sessions; this shows that it works. */
const SECONDS = 30;

test('its own voice in its own microphone is never a reply, and a stop over it halts', async () => {
  const [line] = ownSoundsOf('overhead', SECONDS).said.filter(
    ({ toSeconds, fromSeconds }) => fromSeconds > 4 && toSeconds - fromSeconds > 2.5,
  );
  if (line === undefined) throw new Error('No long line was said.');
  const { samples } = (await fliteInNode()).synthesize('stop', COACH_VOICE);
  const atSeconds = line.fromSeconds + 1;
  // As loud as it was played, 12 dB above what comes back of the line.
  const over = await ownVoiceFigure('overhead', line.toSeconds + 1, -12, [{ samples, atSeconds }]);
  expect(over.asked).toEqual([]);
  expect(over.accepted.map((each) => each.split(': ')[1])).toEqual(['stop']);
}, 120_000);
