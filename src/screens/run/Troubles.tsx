import type { ReactNode } from 'react';
import type { MicrophoneState, Seat } from '../seat';
import { Shape } from '../Shape';
import { SMALL_EAR_WORDS } from '../smallEar';
import { useSeat } from '../useSeat';
import type { Told } from '../view';

const TROUBLE_WORDS: Record<Told<'trouble'>['what'], string> = {
  'no-microphone': 'No microphone was found: answer by touch or keys.',
  denied: 'The microphone is not allowed: answer by touch or keys.',
  unplugged: 'The microphone was unplugged: answer by touch or keys, or plug it in again.',
  interrupted:
    'Something else has the sound, a call perhaps, so it waits. Say or tap "Resume" afterwards.',
  asleep: 'This device was asleep, so it waits where it was. Say or tap "Resume".',
  'worker-failed': 'The ear stopped: answer by touch or keys.',
  'model-missing': 'The recogniser could not load: answer by touch or keys.',
  full: 'The device is full, so the record is kept in memory: free some space, and it is tried again.',
  refused: 'The browser refuses to store the record: it is kept in memory and tried again.',
  damaged: 'The record in this browser is damaged: this session is kept in memory and tried again.',
  differs:
    'This session went on elsewhere too, and something else is stored in its place: what happens here is kept in memory. Save the whole record before you close the page.',
  unknown: 'The record could not be written: it is kept in memory and tried again.',
  'no-voice': 'No voice: read the cues here.',
};

const MICROPHONE_WORDS: Record<MicrophoneState, string | null> = {
  unknown: null,
  asking: 'Your browser is asking for the microphone: choose Allow.',
  hears: null,
  denied: TROUBLE_WORDS.denied,
  none: TROUBLE_WORDS['no-microphone'],
  unplugged: TROUBLE_WORDS.unplugged,
  interrupted: TROUBLE_WORDS.interrupted,
  failed: TROUBLE_WORDS['worker-failed'],
};

const OF_THE_EAR = ['no-microphone', 'denied', 'unplugged', 'worker-failed', 'model-missing'];
/** Over as soon as it goes on. */
const OF_A_PAUSE = ['asleep', 'interrupted'];

/** What does not work now and what to do about it; the voice does not say it, so it is live. */
export function Troubles({ seat }: { seat: Seat }) {
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const { troubles: told, phase } = useSeat(seat, (state) => state.view);
  const isTold = (what: string) => phase === 'paused' && what !== microphone;
  const troubles = told.filter(({ what }) => isTold(what) || !OF_A_PAUSE.includes(what));
  const ear = useSeat(seat, (state) => state.ear);
  const words = MICROPHONE_WORDS[microphone];
  // The microphone's own state is newer than what the timeline told of the ear.
  const still =
    microphone === 'unknown' ? troubles : troubles.filter(({ what }) => !OF_THE_EAR.includes(what));
  return (
    <div role="status" className="troubles">
      {words !== null && <Notice>{words}</Notice>}
      {microphone === 'hears' && ear.state === 'loading' && (
        <Notice>
          The ear is still loading
          {ear.progress !== null && ` (${Math.round(ear.progress * 100)} %)`}: answer by touch
          meanwhile.
        </Notice>
      )}
      {ear.why && microphone === 'hears' && <Notice>{SMALL_EAR_WORDS[ear.why]}</Notice>}
      {still.map(({ what, say }) => (
        <Notice key={what}>{say ?? TROUBLE_WORDS[what]}</Notice>
      ))}
    </div>
  );
}

const Notice = ({ children }: { children: ReactNode }) => (
  <p>
    <Shape name="notice" /> {children}
  </p>
);
