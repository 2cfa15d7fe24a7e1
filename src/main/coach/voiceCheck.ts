import { createActor } from 'xstate';
import { repliesToRead } from '../../cues/repliesToRead';
import { understand } from '../../domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../domain/log';
import { say } from '../../domain/saying';
import type { CueBook, PromptId } from '../../domain/script';
import type { Reading } from '../../ear/coach/coachEar';
import type { Clock, Ear, Tones, Voice } from '../../ports';
import type { VoiceCheckState } from '../../screens/seat';
import { resultsOf, type LineRead } from '../../session/voiceCheck';
import { voiceCheckMachine, type VoiceCheckEvent } from '../../session/voiceCheckMachine';
import type { Coach } from './coach';

/** A voice check that runs. */
export interface VoiceCheck {
  send(event: Extract<VoiceCheckEvent, { type: 'SKIP' | 'GO_ON' | 'STOP' }>): void;
  /** Ends it without a word; nothing is learnt. */
  leave(): void;
}

/** Begins a voice check; `show` is told of each change, `learnt` once the ear has learnt from it. */
export function startVoiceCheck({
  coach,
  show,
  ...ports
}: {
  coach: Coach;
  ear: Ear;
  voice: Voice;
  tones: Pick<Tones, 'play'>;
  clock: Clock;
  show: (state: VoiceCheckState) => void;
}): VoiceCheck {
  const book = coach.book();
  void coach.fitEar('reader');
  const lines = repliesToRead(book, coach.lexicon(), { own: coach.ownWords() });
  const actor = createActor(voiceCheckMachine, {
    input: {
      ...ports,
      lines,
      intro: say(book.lines, 'say.read-aloud', {}),
      means: (prompt, heard, wanted) => isSame(book, prompt, heard, wanted),
      steers: (prompt, heard) => {
        const command = understoodAt(book, prompt, heard).reply?.command;
        return command === 'skip' || command === 'stop' ? command : null;
      },
    },
  });
  actor.subscribe(({ value, context: { left, tries, read, isHeard } }) => {
    const [line] = left;
    const last = tries.at(-1);
    show({
      stage: stageOf(String(value)),
      line:
        line === undefined
          ? null
          : {
              text: line.text,
              isAgain: tries.length > 0,
              insteadOf: line.insteadOf ?? null,
              takenFor: last?.isRight === false ? last.text : null,
            },
      isHeard,
      done: read.length,
      of: read.length + left.length,
      results: resultsOf(read),
    });
    if (value === 'finished') void coach.learn(readingsOf(read));
  });
  actor.start();
  return {
    send: (event) => actor.send(event),
    leave: () => {
      actor.stop();
      void coach.fitEar('coach');
    },
  };
}

const STAGES = ['introducing', 'deaf', 'nobodyHeard', 'finished'] as const;
const stageOf = (state: string): VoiceCheckState['stage'] =>
  STAGES.find((stage) => stage === state) ?? 'reading';

const understoodAt = (book: CueBook, prompt: PromptId, text: string) =>
  understand(book, prompt, text, { ...DEFAULT_SETTINGS, confidence: 1 });

function isSame(book: CueBook, prompt: PromptId, one: string, other: string): boolean {
  const [a, b] = [one, other].map((text) => understoodAt(book, prompt, text).reply);
  return one === other || (a != null && JSON.stringify(a) === JSON.stringify(b));
}

/** What was read of lines that were not left out. */
export const readingsOf = (read: LineRead[]): Reading[] =>
  read.flatMap(({ text, tries, isSkipped }) =>
    isSkipped
      ? []
      : tries.flatMap(({ phones, confidence, isRight }) =>
          phones.length === 0 ? [] : [{ text, phones, confidence: isRight ? confidence : null }],
        ),
  );
