import type { Cancel, Clock } from '../../ports';
import type { Elsewhere, ElsewhereHands, ElsewhereState } from '../../screens/people/elsewhere';
import type { SeatStore } from '../../screens/seat';
import type { Line } from './line';
import { askedLock, webLock } from './sessionLock';

/** The other tab stores what is on its way, which takes at most this. */
const GIVE_UP_MILLISECONDS = 5000;

const RUNS_ELSEWHERE =
  'A session runs in another tab, which has the microphone. Go on with it here, or end it there first.';
/** Said where this tab stood still, so that another took its session over. */
export const LOST_HERE =
  'This tab stood still, and another went on with its session. Load this page anew, then go on with it here.';
const OF_ITS_TAB = 'It goes on only in the tab where it was begun. End it there first.';

/** What runs in this tab, as the others are shown it, or null. */
export type RunsHere = Pick<Elsewhere, 'session' | 'routine' | 'mayGoOnHere'> | null;

export interface TabsPlace extends ElsewhereHands {
  /** True once a session may run here; false where one runs in another tab, which is said. */
  claim(): Promise<boolean>;
  /** Nothing runs here any more. */
  release(): void;
  /** Runs it, unless a session runs in another tab: then that is said. */
  unlessElsewhere(run: () => void): void;
  /** Whether that session runs in another tab. */
  runs(session: string): boolean;
  /** Whether another tab took that session away from this one, which must be loaded anew first. */
  wasLost(session: string): boolean;
}

/**
 * The tabs of a device: one runs a session and has the microphone, the others show what it does.
 * One that wants to go on with it asks; the other stores everything, stops, and lets go. One that
 * does not answer loses it: should it wake up, its next entry has a number that is there, and is
 * refused.
 */
export function createTabsPlace({
  line,
  locks,
  clock,
  store,
  here,
  stop,
  giveUp,
  yieldHere,
  goOn,
  prepare,
  changed,
}: {
  line: Line;
  /** The browser's locks, where it has any. */
  locks: LockManager | undefined;
  clock: Clock;
  store: SeatStore;
  here: () => RunsHere;
  /** Stops what runs here, as if it had been said. */
  stop: () => void;
  /** Stores all of what runs here and ends it; null once that is done, else why not. */
  giveUp: () => Promise<string | null>;
  /** Another tab goes on with it: ends what runs here, without a word. */
  yieldHere: () => void;
  goOn: (session: string) => void;
  /** Inside the tap: unlocks what a tap unlocks. */
  prepare: () => void;
  /** What runs elsewhere is another session now, or none; `gone`: its tab was closed in the middle. */
  changed: (gone: string | null) => void;
}): TabsPlace {
  /** Another tab has taken it over. */
  const lost = () => {
    const { session } = here() ?? {};
    if (session !== undefined) lostHere.add(session);
    isMine = false;
    told = '';
    if (here() !== null) yieldHere();
    line.tell({ type: 'who' });
  };
  const asking = askedLock(line, clock);
  const lock = locks === undefined ? asking : webLock(locks, clock, lost, asking);
  /** What this page holds of these is not what is on record. */
  const lostHere = new Set<string>();
  let isMine = false;
  let told = '';
  let stopWaiting: Cancel = () => undefined;
  /** Something was refused before what runs elsewhere was known. */
  let isRefused = false;
  let answered: ((why: string | null) => void) | null = null;

  const elsewhere = () => store.state().elsewhere;
  const patch = (change: Partial<ElsewhereState>) => {
    const now = elsewhere();
    if (now !== null) store.patch({ elsewhere: { ...now, ...change } });
  };

  /** What runs here, told to the other tabs where something of it has changed. */
  function tell(always = false) {
    const runs = here();
    if (!isMine || runs === null) return;
    const { people, view } = store.state();
    const what: Elsewhere = {
      ...runs,
      person: people.chosen,
      ...{ step: view.step, phase: view.phase },
      cue: view.cue?.text ?? null,
      heard: view.heard?.text ?? null,
    };
    const now = JSON.stringify(what);
    if (!always && now === told) return;
    told = now;
    line.tell({ type: 'runs', what });
  }

  function follow(what: Elsewhere) {
    const before = elsewhere();
    const isNew = before === null || before.session !== what.session;
    const { isAsked = false, trouble = isRefused ? RUNS_ELSEWHERE : null } = isNew ? {} : before;
    isRefused = false;
    store.patch({ elsewhere: { ...what, isAsked, trouble } });
    if (!isNew) return;
    stopWaiting();
    stopWaiting = lock.whenFree(() => over(what.session, true));
    changed(null);
  }

  function over(session: string, isGone: boolean) {
    if (elsewhere()?.session !== session) return;
    stopWaiting();
    store.patch({ elsewhere: null });
    changed(isGone ? session : null);
  }

  async function givesUp(session: string) {
    if (here()?.session !== session) return;
    const why = here()?.mayGoOnHere === true ? await giveUp() : OF_ITS_TAB;
    if (why !== null) return line.tell({ type: 'keeps', session, why });
    release(false);
    line.tell({ type: 'given-up', session });
  }

  line.listen((message) => {
    switch (message.type) {
      case 'who':
        return tell(true);
      case 'runs':
        // The one that took it over is the one that tells.
        if (here()?.session === message.what.session) lost();
        return isMine ? undefined : follow(message.what);
      case 'over':
        return over(message.session, false);
      case 'stop':
        return isMine ? stop() : undefined;
      case 'give-up':
        return void givesUp(message.session);
      case 'given-up':
        return elsewhere()?.session === message.session ? answered?.(null) : undefined;
      case 'keeps':
        return elsewhere()?.session === message.session ? answered?.(message.why) : undefined;
    }
  });
  store.subscribe(() => tell());
  line.tell({ type: 'who' });

  function release(isOver = true) {
    if (!isMine) return;
    isMine = false;
    const { session } = JSON.parse(told || '{}') as Partial<Elsewhere>;
    told = '';
    lock.release();
    if (isOver && session !== undefined) line.tell({ type: 'over', session });
  }

  /** Null once the other tab has let go, or `silent`; else why it does not. */
  const asked = (session: string) =>
    new Promise<string | null>((resolve) => {
      const timer = clock.setTimeout(() => answered?.('silent'), GIVE_UP_MILLISECONDS);
      answered = (why) => {
        clock.clearTimeout(timer);
        answered = null;
        resolve(why);
      };
      line.tell({ type: 'give-up', session });
    });

  return {
    async claim() {
      isMine = elsewhere() === null && (await lock.claim());
      if (!isMine) refuse();
      return isMine;
    },
    release,
    unlessElsewhere(run) {
      if (elsewhere() === null) run();
      else refuse();
    },
    runs: (session) => elsewhere()?.session === session,
    wasLost: (session) => lostHere.has(session),
    stop: () => line.tell({ type: 'stop' }),
    goOnHere() {
      const now = elsewhere();
      if (now === null || now.isAsked) return;
      if (lostHere.has(now.session)) return patch({ trouble: LOST_HERE });
      prepare();
      void takeOver(now.session);
    },
  };

  async function takeOver(session: string) {
    patch({ isAsked: true, trouble: null });
    stopWaiting();
    const why = await asked(session);
    if (why !== null && why !== 'silent') {
      patch({ isAsked: false, trouble: why });
      stopWaiting = lock.whenFree(() => over(session, true));
      return;
    }
    if (why === 'silent') isMine = await lock.takeAway();
    store.patch({ elsewhere: null });
    goOn(session);
  }

  /** It is said where the other session is shown. */
  function refuse() {
    isRefused = elsewhere() === null;
    if (isRefused) line.tell({ type: 'who' });
    else patch({ trouble: RUNS_ELSEWHERE });
    store.patch({ where: 'people' });
  }
}
