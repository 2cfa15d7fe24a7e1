import { createActor } from 'xstate';
import { createVirtualClock } from '../../../src/cli/virtualClock';
import { secondsOf } from '../../../src/cli/durations';
import { bookOf } from '../../../src/cli/verb';
import { NO_REPLY } from '../../../src/domain/hearing/reply';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';
import type { PromptId } from '../../../src/domain/script';
import type { Hearing, Ports, ToneName } from '../../../src/ports';
import { memoryRecords } from '../../../src/records/memoryRecords';
import { sessionMachine } from '../../../src/session/sessionMachine';

/** What Sayso says, counts and plays in a session, and what is attended from when on; seconds. */
export interface OwnSounds {
  said: { text: string; fromSeconds: number; toSeconds: number; isCount: boolean }[];
  tones: { name: ToneName; atSeconds: number }[];
  attended: { prompt: PromptId; fromSeconds: number }[];
  endSeconds: number;
}

/** Answers come by touch after so long, so that nobody but Sayso makes a sound. */
const ANSWERS_AFTER_SECONDS = 2.5;
const LIMIT_SECONDS = 24 * 3600;

/**
 * A session of that routine in which every question is answered by touch, the same each time, on
 * a virtual clock: at least so many seconds of it, or to its end.
 */
export function ownSoundsOf(routine: string, seconds: number): OwnSounds {
  const clock = createVirtualClock(0);
  const now = () => clock.now() / 1000;
  const sounds: OwnSounds = { said: [], tones: [], attended: [], endSeconds: 0 };
  let prompt: PromptId = 'idle';
  let tell: (hearing: Hearing) => void = () => undefined;
  const sounding = (text: string, fromSeconds: number, isCount: boolean) => {
    const piece = { text, fromSeconds, toSeconds: fromSeconds + secondsOf(text), isCount };
    sounds.said.push(piece);
    return () => {
      piece.toSeconds = Math.max(fromSeconds, Math.min(piece.toSeconds, now()));
    };
  };
  let asked = 0;
  const answer = () => {
    asked += 1;
    const open = prompt;
    clock.setTimeout(() => {
      // Every third is lost, so that ladders, fixes and reasons are heard too.
      const result = asked % 3 === 1 ? 'lost' : 'held';
      const reply =
        open === 'confirm' ? { command: 'yes' as const } : { result: result as 'lost' | 'held' };
      tell({ type: 'reply', reply: { ...NO_REPLY, ...reply }, prompt: open });
    }, ANSWERS_AFTER_SECONDS * 1000);
  };
  const ports: Ports = {
    clock,
    ear: {
      attend(next) {
        prompt = next;
        sounds.attended.push({ prompt: next, fromSeconds: now() });
      },
      listen(onHearing) {
        tell = onHearing;
        return () => undefined;
      },
    },
    voice: {
      say(text, { ended }) {
        const cut = sounding(text, now(), false);
        const timer = clock.setTimeout(() => ended('spoken'), secondsOf(text) * 1000);
        return () => {
          clock.clearTimeout(timer);
          cut();
        };
      },
      prepare: () => undefined,
      adjust: () => undefined,
      duck: () => undefined,
    },
    tones: {
      play: (name) => sounds.tones.push({ name, atSeconds: now() }),
      hush: () => undefined,
    },
    beats: {
      place: (text, atMilliseconds) =>
        text === null ? () => undefined : sounding(text, atMilliseconds / 1000, true),
      prepare: () => undefined,
    },
    records: memoryRecords(),
    screen: {
      show(event) {
        if (event.type === 'listen') answer();
      },
    },
  };
  const actor = createActor(sessionMachine, {
    clock,
    input: {
      ...{ book: bookOf(), ports, secondsOf, session: 'own voice', device: 'bench', routine },
      ...{ way: 'hands-on' as const, settings: DEFAULT_SETTINGS, log: [] },
    },
  });
  actor.start();
  const isOver = () => now() >= seconds || actor.getSnapshot().status !== 'active';
  clock.runUntil(isOver, LIMIT_SECONDS * 1000);
  actor.stop();
  return { ...sounds, endSeconds: now() };
}
