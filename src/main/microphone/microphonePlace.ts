import type { MicrophoneCheckHands } from '../../screens/microphone/state';
import type { SeatStore } from '../../screens/seat';
import type { Parts } from '../parts';

/** The place at the seat of the check of the microphone. */
export function createMicrophonePlace({
  store,
}: {
  parts: Parts;
  store: SeatStore;
  /** Opens it where it is not open; whether it hears is in the state then. */
  openMicrophone: () => Promise<void>;
}): MicrophoneCheckHands {
  return {
    begin: () => store.patch({ where: 'microphone', microphoneCheck: { stage: 'loading' } }),
    leave: () => store.patch({ where: 'gate', microphoneCheck: null }),
  };
}
