import type { Cancel, Clock } from '../../ports';
import type { Line } from './line';

/** Which of the tabs of a device runs a session: one at most. */
export interface SessionLock {
  /** True once it is this tab, false where it is another. */
  claim(): Promise<boolean>;
  /** From a tab that does not answer any more. */
  takeAway(): Promise<boolean>;
  release(): void;
  /** Runs once no tab has it, also where the one that had it was killed. */
  whenFree(run: () => void): Cancel;
}

const NAME = 'sayso-session';
/** Others only look whether it is free, which takes no time. */
const CLAIM_MILLISECONDS = 1500;

/**
 * By the browser's own locks, which a tab loses with its life; where it refuses them, as a page that
 * may store nothing, by `otherwise`. `lost`: it was taken away.
 */
export function webLock(
  locks: LockManager,
  clock: Clock,
  lost: () => void,
  otherwise: SessionLock,
): SessionLock {
  let release: Cancel | null = null;
  const hold = (options: LockOptions) =>
    new Promise<boolean | 'refused'>((resolve) => {
      let isMine = false;
      const held = () =>
        new Promise<void>((over) => {
          isMine = true;
          resolve(true);
          release = () => {
            isMine = false;
            release = null;
            over();
          };
        });
      locks.request(NAME, options, held).catch((error: unknown) => {
        resolve(isAbort(error) ? false : 'refused');
        if (!isMine) return;
        release = null;
        lost();
      });
    });
  return {
    async claim() {
      if (release !== null) return true;
      const waiting = new AbortController();
      const timer = clock.setTimeout(() => waiting.abort(), CLAIM_MILLISECONDS);
      const isMine = await hold({ signal: waiting.signal });
      clock.clearTimeout(timer);
      return isMine === 'refused' ? otherwise.claim() : isMine;
    },
    async takeAway() {
      const isMine = await hold({ steal: true });
      return isMine === 'refused' ? otherwise.takeAway() : isMine;
    },
    release() {
      release?.();
      otherwise.release();
    },
    whenFree(run) {
      const waiting = new AbortController();
      let cancel = () => waiting.abort();
      locks
        .request(NAME, { mode: 'shared', signal: waiting.signal }, () => undefined)
        .then(run, (error: unknown) => {
          if (!isAbort(error)) cancel = otherwise.whenFree(run);
        });
      return () => cancel();
    },
  };
}

const isAbort = (error: unknown) => error instanceof DOMException && error.name === 'AbortError';

/** Whoever runs a session answers within this. */
const ANSWER_MILLISECONDS = 500;
const LOOK_MILLISECONDS = 5000;

/**
 * Where the browser has no locks (an old one, or an address that is not secure) the tabs ask each
 * other. A tab that stands still does not answer, so two may run one session for a moment: the
 * record refuses the second entry of one number, and that tab gives up.
 */
export function askedLock(line: Line, clock: Clock): SessionLock {
  let isMine = false;
  const isAnswered = () =>
    new Promise<boolean>((resolve) => {
      const hangUp = line.listen((message) => {
        if (message.type !== 'runs') return;
        clock.clearTimeout(timer);
        hangUp();
        resolve(true);
      });
      const timer = clock.setTimeout(() => {
        hangUp();
        resolve(false);
      }, ANSWER_MILLISECONDS);
      line.tell({ type: 'who' });
    });
  const take = () => {
    isMine = true;
    return true;
  };
  return {
    claim: async () => isMine || (!(await isAnswered()) && take()),
    takeAway: () => Promise.resolve(take()),
    release: () => {
      isMine = false;
    },
    whenFree(run) {
      let timer: unknown;
      let isOver = false;
      const look = async () => {
        const isHeld = await isAnswered();
        if (isOver) return;
        if (!isHeld) return run();
        timer = clock.setTimeout(() => void look(), LOOK_MILLISECONDS);
      };
      timer = clock.setTimeout(() => void look(), LOOK_MILLISECONDS);
      return () => {
        isOver = true;
        clock.clearTimeout(timer);
      };
    },
  };
}
