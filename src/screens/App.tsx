// The look comes first, so that each screen's own rules may refine it.
import './look/tokens.css';
import './look/base.css';
import { lazy, Suspense } from 'react';
import { ErrorBoundary } from './ErrorBoundary';
import { FinishedScreen } from './finished/FinishedScreen';
import { StartGate } from './gate/StartGate';
import { RunScreen } from './run/RunScreen';
import type { Seat } from './seat';
import { useSeat } from './useSeat';

/** Seldom needed, so that it does not delay the gate. */
const VoiceCheckScreen = lazy(() => import('./voiceCheck/VoiceCheckScreen'));

const SCREENS = {
  gate: StartGate,
  voiceCheck: VoiceCheckScreen,
  run: RunScreen,
  finished: FinishedScreen,
};

/** The whole app: one screen at a time, by where the session is. */
export function App({ seat }: { seat: Seat }) {
  const where = useSeat(seat, (state) => state.where);
  const Screen = SCREENS[where];
  return (
    <ErrorBoundary seat={seat}>
      <Suspense fallback={<p className="page">One moment.</p>}>
        <Screen seat={seat} />
      </Suspense>
    </ErrorBoundary>
  );
}
