import { expect, test } from 'vitest';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';
import { ownVoiceFigure } from './ownVoice/ownVoice';
import { ownSoundsOf } from './ownVoice/session';

/** The bench hears whole sessions; this shows that it works. */
const SECONDS = 12;

test('its own voice in its own microphone is never a reply, and a stop over it halts', async () => {
  const figure = await ownVoiceFigure('overhead', SECONDS, -6);
  expect(figure).toMatchObject({ accepted: [], asked: [] });

  const [line] = ownSoundsOf('overhead', SECONDS).said.filter(
    ({ toSeconds, fromSeconds }) => toSeconds - fromSeconds > 2.5,
  );
  if (line === undefined) throw new Error('No long line was said.');
  const { samples } = (await fliteInNode()).synthesize('stop', COACH_VOICE);
  const atSeconds = line.fromSeconds + 1;
  // As loud as it was played, 12 dB above what comes back of the line.
  const over = await ownVoiceFigure('overhead', line.toSeconds + 1, -12, [{ samples, atSeconds }]);
  expect(over.accepted.map((each) => each.split(': ')[1])).toContain('stop');
}, 120_000);
