import { NO_REPLY } from '../domain/hearing/reply';
import type { PromptId } from '../domain/script';
import type { Cancel, Clock, Ear, Hearing } from '../ports';
import type { Output } from '../sounding/playing';
import { createAwakeClock } from './awakeClock';

/** Why something waits that nobody told to wait. */
export type Interruption = 'asleep' | 'interrupted';

/** The sound of the page may stand for so long, as where a headset is changed. */
const SOUND_STANDS_MILLISECONDS = 1500;

const PAUSE = { ...NO_REPLY, command: 'pause' } as const;

/**
 * What is led by `ear` and `clock` pauses, as if somebody had said so, where the device slept,
 * something else took the microphone (a call), or the sound of the page stands; `told` says why.
 * It goes on when somebody says so: whoever was called may still be talking.
 */
export function interruptible(
  outside: { ear: Ear; clock: Clock; sound?: BaseAudioContext | null },
  told: (why: Interruption) => void,
): { ear: Ear; clock: Clock; leave: Cancel } {
  const listeners = new Set<(hearing: Hearing) => void>();
  let attended: PromptId = 'idle';
  const interrupt = (why: Interruption) => {
    told(why);
    for (const listener of [...listeners])
      listener({ type: 'reply', reply: PAUSE, prompt: attended });
  };
  const clock = createAwakeClock(outside.clock, () => interrupt('asleep'));

  const { sound = null } = outside;
  let wasRunning = sound?.state === 'running';
  let standing: unknown = null;
  const soundChanged = () => {
    outside.clock.clearTimeout(standing);
    if (sound?.state === 'running') wasRunning = true;
    else if (wasRunning && sound?.state !== 'closed') {
      standing = outside.clock.setTimeout(
        () => interrupt('interrupted'),
        SOUND_STANDS_MILLISECONDS,
      );
    }
  };
  sound?.addEventListener('statechange', soundChanged);

  return {
    clock,
    ear: {
      attend(prompt) {
        attended = prompt;
        outside.ear.attend(prompt);
      },
      listen(listener) {
        listeners.add(listener);
        const cancel = outside.ear.listen((hearing) => {
          clock.look();
          if (hearing.type === 'deaf' && hearing.why === 'interrupted') interrupt('interrupted');
          else listener(hearing);
        });
        return () => {
          listeners.delete(listener);
          cancel();
        };
      },
    },
    leave() {
      clock.leave();
      outside.clock.clearTimeout(standing);
      sound?.removeEventListener('statechange', soundChanged);
    },
  };
}

/** Where the sound of the page goes; null where the browser has none. */
export function soundOf(tones: { output(): Output }): BaseAudioContext | null {
  try {
    return tones.output().context;
  } catch {
    return null;
  }
}
