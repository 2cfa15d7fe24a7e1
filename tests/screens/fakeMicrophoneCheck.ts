import type { MicrophoneCheckHands } from '../../src/screens/microphone/state';
import type { Did } from './fakeSeat';

/** Remembers what is done in the check of the microphone. */
export const fakeMicrophoneCheck = (did: Did[]): MicrophoneCheckHands => ({
  begin: () => did.push(['checkMicrophone']),
  again: () => did.push(['checkMicrophoneAgain']),
  goOn: () => did.push(['goOnWithMicrophone']),
  leave: () => did.push(['leaveMicrophone']),
});
