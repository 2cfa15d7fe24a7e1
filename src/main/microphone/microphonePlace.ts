import { roomOf } from '../../domain/hearing/microphoneAdvice';
import { manyEars } from '../../ear/manyEars';
import type { Cancel } from '../../ports';
import type {
  LastCheck,
  MicrophoneCheckHands,
  MicrophoneCheckState,
  MicrophoneRun,
} from '../../screens/microphone/state';
import type { SeatStore } from '../../screens/seat';
import { keptText } from '../keptText';
import type { Parts } from '../parts';
import { stayAwake } from '../wakefulness';
import type { MicrophoneCheck } from './microphoneCheck';

const NOTHING_YET: MicrophoneCheckState = { room: null, last: null, run: null };
const LOADING: MicrophoneRun = {
  stage: 'loading',
  line: null,
  isAgain: false,
  isMute: false,
  wasHidden: false,
  of: 0,
  heard: [],
  result: null,
  before: null,
};

/** The place at the seat of the check of the microphone: opens what it needs, and steers it. */
export function createMicrophonePlace({
  parts: { clock, coach, ear, hands, isHeard, tones, voice },
  store,
  openMicrophone,
}: {
  parts: Pick<Parts, 'clock' | 'coach' | 'ear' | 'hands' | 'isHeard' | 'tones' | 'voice'>;
  store: SeatStore;
  /** Opens it where it is not open; whether it hears is in the state then. */
  openMicrophone: () => Promise<void>;
}): MicrophoneCheckHands {
  const kept = keptText(() => localStorage, 'sayso-microphone');
  let running: MicrophoneCheck | null = null;
  let visits = 0;
  let sleepAgain: Cancel | null = null;
  let callWord: string | null = null;
  /** Where it was begun, and leads back to. */
  let from: 'gate' | 'squadDay' = 'gate';
  const now = () => store.state().microphoneCheck ?? NOTHING_YET;
  const patch = (change: Partial<MicrophoneCheckState>) =>
    store.patch({ microphoneCheck: { ...now(), ...change } });
  const show = (change: Partial<MicrophoneRun>) =>
    patch({ run: { ...(now().run ?? LOADING), ...change } });
  const isOpen = () => store.state().microphone.state === 'hears';

  patch({ last: lastFrom(kept.load()) });
  ear.onLevel((_level, _hearsWell, sound) => {
    if (sound === undefined) return;
    running?.hear(sound);
    const room = roomOf(sound.noiseDecibels);
    if (room !== now().room) patch({ room });
  });
  // Whatever leads away from it ends it.
  store.subscribe(() => {
    const { where, coach: known } = store.state();
    if (sleepAgain === null) return;
    if (where !== 'microphone') stop();
    else if (known.callWord !== callWord) {
      // Set on this very page: once the ear was fitted to it, the check goes on without it.
      callWord = known.callWord;
      const visit = visits;
      queueMicrotask(() => {
        if (isHeard && visit === visits) void coach.fitEar('coach', null);
      });
    }
  });

  const stop = () => {
    visits += 1;
    running?.leave();
    running = null;
    sleepAgain?.();
    sleepAgain = null;
    if (isHeard) void coach.fitEar('coach');
    patch({ run: null });
  };
  const leave = () => {
    stop();
    store.patch({ where: from });
  };

  const told = (run: MicrophoneRun) => {
    const [first] = run.result?.advised ?? [];
    if (first !== undefined && now().run?.result == null) {
      const last: LastCheck = { date: store.state().people.today, words: first.words };
      kept.save(JSON.stringify(last));
      patch({ last });
    }
    show(run);
  };

  const begin = async () => {
    tones.unlock().catch(() => undefined);
    if (sleepAgain !== null) stop();
    sleepAgain = stayAwake();
    callWord = store.state().coach.callWord;
    const visit = visits;
    const { where } = store.state();
    if (where !== 'microphone') from = where === 'squadDay' ? where : 'gate';
    store.patch({ where: 'microphone' });
    patch({ run: LOADING });
    try {
      const [{ startMicrophoneCheck }] = await Promise.all([
        import('./microphoneCheck'),
        ear.ready,
        openMicrophone(),
      ]);
      if (visit !== visits) return;
      // What is heard counts here without the call word: it is the microphone that is checked.
      await coach.fitEar('coach', null);
      if (visit !== visits) return;
      if (!isOpen()) return show({ stage: 'deaf' });
      running = startMicrophoneCheck({
        ...{ clock, tones, voice, show: told, stopped: leave },
        book: coach.book(),
        ear: manyEars([ear, hands]),
        known: () => {
          const { microphone, ear: heardBy } = store.state();
          const { callWord, readings } = coach.state();
          return {
            hearsOverSound: microphone.hearsOverSound ?? true,
            hasCallWord: callWord !== null,
            isFitted: readings > 0,
            recogniser: heardBy.size ?? 'strong',
            isBetterComing: heardBy.size === 'small' && (heardBy.why ?? null) === null,
          };
        },
        onSight,
      });
    } catch {
      // The recogniser, or this part of the page, did not load.
      if (visit === visits) show({ stage: 'failed' });
    }
  };

  return {
    begin: () => void begin(),
    again: () => {
      if (running === null || !isOpen()) void begin();
      else running.steer('again');
    },
    goOn: () => {
      const check = running;
      if (check === null) return void begin();
      void openMicrophone().then(() => {
        if (isOpen()) check.steer('go-on');
      });
    },
    leave,
  };
}

const onSight = (tell: (isSeen: boolean) => void): Cancel => {
  const look = () => tell(document.visibilityState === 'visible');
  document.addEventListener('visibilitychange', look);
  return () => document.removeEventListener('visibilitychange', look);
};

/** Null where nothing was kept, or nothing that can be read. */
function lastFrom(text: string | null): LastCheck | null {
  try {
    const kept: unknown = JSON.parse(text ?? 'null');
    if (typeof kept !== 'object' || kept === null) return null;
    const { date, words } = kept as Record<string, unknown>;
    return typeof date === 'string' && typeof words === 'string' ? { date, words } : null;
  } catch {
    return null;
  }
}
