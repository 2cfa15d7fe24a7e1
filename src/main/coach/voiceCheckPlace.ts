import { manyEars } from '../../ear/manyEars';
import type { SeatStore, VoiceCheckState } from '../../screens/seat';
import type { Parts } from '../parts';
import type { VoiceCheck } from './voiceCheck';

/** The voice check's place at the seat: opens what it needs, loads it, and steers it. */
export interface VoiceCheckPlace {
  begin(): Promise<void>;
  steer(how: 'skip' | 'go-on' | 'stop'): void;
  leave(): void;
}

const NOTHING_READ: VoiceCheckState = {
  stage: 'loading',
  line: null,
  isHeard: false,
  done: 0,
  of: 0,
  results: [],
};

export function createVoiceCheckPlace({
  parts: { coach, ear, hands, voice, tones, clock },
  store,
  openMicrophone,
}: {
  parts: Pick<Parts, 'coach' | 'ear' | 'hands' | 'voice' | 'tones' | 'clock'>;
  store: SeatStore;
  /** Opens it where it is not open; whether it hears is in the state then. */
  openMicrophone: () => Promise<void>;
}): VoiceCheckPlace {
  let running: VoiceCheck | null = null;
  let visits = 0;
  const show = (change: Partial<VoiceCheckState>) =>
    store.patch({ voiceCheck: { ...(store.state().voiceCheck ?? NOTHING_READ), ...change } });

  const begin = async () => {
    visits += 1;
    const visit = visits;
    const isLeft = () => visit !== visits;
    running?.leave();
    running = null;
    store.patch({ where: 'voiceCheck', voiceCheck: NOTHING_READ });
    try {
      const [{ startVoiceCheck }] = await Promise.all([
        import('./voiceCheck'),
        ear.ready.then(() => bestEar(store)),
        openMicrophone(),
      ]);
      if (isLeft()) return;
      if (store.state().microphone.state !== 'hears') return show({ stage: 'deaf' });
      running = startVoiceCheck({ coach, ear: manyEars([ear, hands]), voice, tones, clock, show });
    } catch {
      // The recogniser, or this part of the page, did not load.
      if (!isLeft()) show({ stage: 'failed' });
    }
  };

  return {
    begin,
    steer: (how) => {
      if (how === 'stop' && running === null) return show({ stage: 'finished' });
      if (how !== 'go-on') return running?.send({ type: how === 'skip' ? 'SKIP' : 'STOP' });
      if (running === null) return void begin();
      void openMicrophone().then(() => {
        if (store.state().microphone.state === 'hears') running?.send({ type: 'GO_ON' });
      });
    },
    leave: () => {
      visits += 1;
      running?.leave();
      running = null;
      store.patch({ voiceCheck: null });
    },
  };
}

/** Once the ear hears that will hear the session: the better one, or the small one where it stays. */
const bestEar = ({ state, subscribe }: SeatStore) =>
  new Promise<void>((resolve) => {
    const isThere = () => {
      const { size, why } = state().ear;
      return size === 'strong' || (why ?? null) !== null;
    };
    if (isThere()) return resolve();
    const leave = subscribe(() => {
      if (!isThere()) return;
      leave();
      resolve();
    });
  });
