import type { BeginChoice, Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';

/** Microphone states in which nothing will be heard, so that touch and keys lead. */
const CANNOT_HEAR = ['denied', 'none', 'unplugged', 'interrupted', 'failed'];

interface BeginButtonsProps {
  seat: Seat;
  /** Who agrees, as the button says it. */
  they: string;
  /** Id of what they agree to. */
  agreed: string;
  isDisabled?: boolean;
  begin: (listen: BeginChoice['listen']) => void;
}

/** One tap begins: by voice first where it will be heard, else by touch. */
export function BeginButtons({ seat, they, agreed, isDisabled = false, begin }: BeginButtonsProps) {
  const microphone = useSeat(seat, (state) => state.microphone.state);
  const ear = useSeat(seat, (state) => state.ear.state);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const canHear = isHeard && !CANNOT_HEAR.includes(microphone) && ear !== 'failed';
  const ways = canHear ? (['microphone', 'hands'] as const) : (['hands', 'microphone'] as const);
  return ways
    .filter((listen) => isHeard || listen === 'hands')
    .map((listen, at) => (
      <button
        key={listen}
        type="button"
        className={at === 0 ? 'first' : ''}
        aria-describedby={agreed}
        disabled={isDisabled}
        onClick={() => begin(listen)}
      >
        {listen === 'microphone' && <Shape name="ear" />} {they}: begin by{' '}
        {listen === 'microphone' ? 'voice' : 'touch'}
      </button>
    ));
}
