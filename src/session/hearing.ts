import { fromCallback } from 'xstate';
import type { Reading } from '../domain/hearing/reply';
import { understandEither } from '../domain/hearing/either';
import { understand } from '../domain/hearing/understanding';
import { understandOverSpeech } from '../domain/hearing/overSpeech';
import { readbackOf } from '../domain/hearing/readback';
import type { SessionSettings } from '../domain/log';
import type { CueBook, PromptId } from '../domain/script';
import type { Ear, EarTrouble } from '../ports';
import type { Stage } from './stage';

/** What the ear brings into the session, understood. */
export type HearingEvent =
  | { type: 'HEARD'; reading: Reading; prompt: PromptId; by: 'voice' | 'hand' }
  /** Believed, and perhaps not the whole of it: nothing is decided by it. */
  | { type: 'SO_FAR'; reading: Reading; prompt: PromptId }
  | { type: 'ONSET' }
  | { type: 'NOTHING' }
  | { type: 'DEAF'; why: EarTrouble }
  | { type: 'HEARS_AGAIN' };

/** Listens as long as the session lives; words are understood at the prompt they were said at. */
export const hearing = fromCallback<
  { type: 'NONE' },
  { ear: Ear; book: CueBook; settings: SessionSettings; callWord: string | null; stage: Stage }
>(({ input: { ear, book, settings, callWord, stage }, sendBack }) => {
  /** A beginning was told, and not yet what became of it. */
  let isBegun = false;
  return ear.listen((hearing) => {
    if (hearing.type === 'so-far') {
      isBegun = true;
      const { text, confidence, prompt } = hearing;
      const reading = understand(book, prompt, text, { ...settings, confidence, callWord });
      return sendBack({ type: 'SO_FAR', reading, prompt });
    }
    if (hearing.type === 'onset') stage.giveWay();
    else {
      stage.goOn();
      if (isBegun && (hearing.type === 'nothing' || hearing.type === 'deaf'))
        stage.show({ type: 'heard-nothing' });
      isBegun = false;
    }
    switch (hearing.type) {
      case 'onset':
        return sendBack({ type: 'ONSET' });
      case 'nothing':
        return sendBack({ type: 'NOTHING' });
      case 'deaf':
        return sendBack({ type: 'DEAF', why: hearing.why });
      case 'hears-again':
        return sendBack({ type: 'HEARS_AGAIN' });
      case 'words': {
        const { prompt, confidence } = hearing;
        const options = { ...settings, confidence, callWord };
        const { beganSecondsAgo } = hearing;
        const line =
          beganSecondsAgo === undefined
            ? null
            : stage.saidAt(stage.clock.now() - beganSecondsAgo * 1000);
        const reading =
          line === null
            ? understandEither(book, prompt, hearing, options)
            : understandOverSpeech(book, hearing, options, line);
        return sendBack({ type: 'HEARD', reading, prompt, by: 'voice' });
      }
      case 'reply': {
        const { reply, prompt } = hearing;
        const readback = readbackOf(book, reply);
        const reading: Reading = { heard: '', verdict: 'accept', reply, confidence: 1, readback };
        return sendBack({ type: 'HEARD', reading, prompt, by: 'hand' });
      }
    }
  });
});
