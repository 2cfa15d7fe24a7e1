import type { Room } from '../domain/hearing/microphoneAdvice';
import type { MicrophoneState } from './seat';

/** How the microphone stands, and what to do. */
export const MICROPHONE_WORDS: Record<MicrophoneState, string> = {
  unknown: 'Not tried yet. Your browser will ask; sound never leaves this device.',
  asking: 'Your browser is asking for the microphone: choose Allow.',
  hears: 'The microphone is open. Sound never leaves this device.',
  denied:
    'The microphone is not allowed. Touch and keys do everything; to speak, allow the microphone in the browser’s page settings and try again.',
  none: 'No microphone was found. Touch and keys do everything; to speak, plug one in and try again.',
  unplugged:
    'The microphone was unplugged. Touch and keys do everything; plug it in and try again.',
  interrupted:
    'Something else has the microphone, a call perhaps. Touch and keys do everything; it is heard again afterwards.',
  failed: 'The ear could not start. Touch and keys do everything; reload the page to try again.',
};

/** How loud the room is by itself. */
export const ROOM_WORDS: Record<Room, string> = {
  quiet: 'quiet',
  busy: 'some noise',
  loud: 'loud',
};
