import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { ChooseWarmUp } from './ChooseWarmUp';
import { Lead } from './Lead';
import { WarmUpOver } from './WarmUpOver';
import '../gate/gate.css';
import './warmUp.css';

/** A group warm-up from one speaker: what is led, leading it, and its end. */
export default function WarmUpScreen({ seat }: { seat: Seat }) {
  const stage = useSeat(seat, (state) => state.warmUp?.stage ?? 'choosing');
  switch (stage) {
    case 'running':
      return <Lead seat={seat} />;
    case 'over':
      return <WarmUpOver seat={seat} />;
    default:
      return <ChooseWarmUp seat={seat} />;
  }
}
