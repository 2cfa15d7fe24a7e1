import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import type { Told } from '../view';

const TROUBLE_WORDS: Record<Told<'trouble'>['what'], string> = {
  'no-microphone': 'No microphone was found: answer by touch or keys.',
  denied: 'The microphone is not allowed: answer by touch or keys.',
  unplugged: 'The microphone was unplugged: answer by touch or keys, or plug it in again.',
  'worker-failed': 'The ear stopped: answer by touch or keys.',
  'model-missing': 'The recogniser could not load: answer by touch or keys.',
  full: 'The device is full, so the record is kept in memory: free some space, and it is tried again.',
  refused: 'The browser refuses to store the record: it is kept in memory and tried again.',
  damaged: 'The record in this browser is damaged: this session is kept in memory and tried again.',
  unknown: 'The record could not be written: it is kept in memory and tried again.',
  'no-voice': 'No voice: read the cues here.',
};

const OF_THE_EAR = ['no-microphone', 'denied', 'unplugged', 'worker-failed', 'model-missing'];

/** What does not work now and what to do about it; the voice does not say it, so it is live. */
export function Troubles({ seat }: { seat: Seat }) {
  const troubles = useSeat(seat, (state) => state.view.troubles);
  const hears = useSeat(seat, (state) => state.microphone.state === 'hears');
  const ear = useSeat(seat, (state) => state.ear);
  const still = troubles.filter(({ what }) => !(hears && OF_THE_EAR.includes(what)));
  return (
    <div role="status" className="troubles">
      {hears && ear.state === 'loading' && (
        <p>
          <Shape name="ear" /> The ear is still loading
          {ear.progress !== null && ` (${Math.round(ear.progress * 100)} %)`}: answer by touch
          meanwhile.
        </p>
      )}
      {still.map(({ what, say }) => (
        <p key={what}>
          <Shape name="notice" /> {say ?? TROUBLE_WORDS[what]}
        </p>
      ))}
    </div>
  );
}
