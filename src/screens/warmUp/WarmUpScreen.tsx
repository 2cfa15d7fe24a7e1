import { lazy, Suspense } from 'react';
import type { Seat } from '../seat';
import { useSeat } from '../useSeat';
import { ChooseWarmUp } from './ChooseWarmUp';
import { Lead } from './Lead';
import { WarmUpOver } from './WarmUpOver';
import '../gate/gate.css';
import './warmUp.css';

const Builder = lazy(() => import('./builder/Builder'));

/** A group warm-up from one speaker: what is led, leading it, and its end. */
export default function WarmUpScreen({ seat }: { seat: Seat }) {
  const stage = useSeat(seat, (state) => state.warmUp?.stage ?? 'choosing');
  switch (stage) {
    case 'building':
      return (
        <Suspense fallback={<p className="page">One moment.</p>}>
          <Builder seat={seat} />
        </Suspense>
      );
    case 'running':
      return <Lead seat={seat} />;
    case 'over':
      return <WarmUpOver seat={seat} />;
    default:
      return <ChooseWarmUp seat={seat} />;
  }
}
