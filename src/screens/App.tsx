// The look comes first, so that each screen's own rules may refine it.
import './look/tokens.css';
import './look/base.css';
import { lazy, Suspense, useEffect } from 'react';
import { ErrorBoundary } from './ErrorBoundary';
import { StartGate } from './gate/StartGate';
import { PeopleScreen } from './people/PeopleScreen';
import { RunScreen } from './run/RunScreen';
import type { Seat } from './seat';
import { useSeat } from './useSeat';

/** What the first screen does not need comes behind it. */
const loadFinished = () => import('./finished/FinishedScreen');
const AthleteScreen = lazy(() => import('./athlete/AthleteScreen'));
const VisitScreen = lazy(() => import('./athlete/VisitScreen'));
const ImportScreen = lazy(() => import('./import/ImportScreen'));
const HomeworkScreen = lazy(() => import('./homework/HomeworkScreen'));
const RecordScreen = lazy(() => import('./record/RecordScreen'));
const SquadDayScreen = lazy(() => import('./squadDay/SquadDayScreen'));
const WarmUpScreen = lazy(() => import('./warmUp/WarmUpScreen'));
const MicrophoneScreen = lazy(() => import('./microphone/MicrophoneScreen'));
const KeysScreen = lazy(() => import('./keys/KeysScreen'));
const VoiceCheckScreen = lazy(() => import('./voiceCheck/VoiceCheckScreen'));
const FinishedScreen = lazy(loadFinished);

const SCREENS = {
  people: PeopleScreen,
  import: ImportScreen,
  record: RecordScreen,
  homework: HomeworkScreen,
  athlete: AthleteScreen,
  visit: VisitScreen,
  squadDay: SquadDayScreen,
  warmUp: WarmUpScreen,
  gate: StartGate,
  microphone: MicrophoneScreen,
  keys: KeysScreen,
  voiceCheck: VoiceCheckScreen,
  run: RunScreen,
  finished: FinishedScreen,
};

/** The whole app: one screen at a time, by where the session is. */
export function App({ seat }: { seat: Seat }) {
  const where = useSeat(seat, (state) => state.where);
  const Screen = SCREENS[where];
  useEffect(() => {
    // The end of a session must come without a network too.
    if (where === 'run') loadFinished().catch(() => undefined);
  }, [where]);
  return (
    <ErrorBoundary seat={seat}>
      {/* By its own key, so that the screen before is gone, and its keys, while the next loads. */}
      <Suspense key={where} fallback={<p className="page">One moment.</p>}>
        <Screen seat={seat} />
      </Suspense>
    </ErrorBoundary>
  );
}
