import type { Cancel, Clock, EarTrouble } from '../ports';
import type { Microphone, MicrophoneFate } from './microphone';

/** The microphones of this device. */
export interface Microphones {
  /** Asks for the one that the browser holds best. */
  openMicrophone: (fate: MicrophoneFate) => Promise<Microphone | EarTrouble>;
  /** Calls when devices come or go, or the permission changes. */
  onDevices: (run: () => void) => Cancel;
  /** Names, one for each microphone that is there; empty where the browser does not say. */
  inputs: () => Promise<string[]>;
}

export interface KeptMicrophone {
  /** Asks for the microphone; asked again while it is being asked, the answer is the same. */
  open(): Promise<EarTrouble | null>;
  /** The one that is open. */
  now(): Microphone | null;
  close(): void;
}

/** The browser asks the user for this long. */
const ASKED_MILLISECONDS = 30_000;
/** Devices come and go in several steps; a headset first plays, then hears. */
const SETTLE_MILLISECONDS = 500;
/** A microphone is mute for a moment where the way of the sound changes; a call takes longer. */
const MUTE_MILLISECONDS = 1500;

/**
 * Keeps a microphone open. Where another comes, a headset say, it is asked for, since that is the
 * one the coach now wears; its rate may be another. Where that fails the old one stays. Where the
 * one in use goes, the next that comes is opened. `lost` says why none is open: where the permission
 * was revoked, `denied`.
 */
export function keepMicrophone(
  { openMicrophone, onDevices, inputs }: Microphones,
  clock: Clock,
  tell: {
    opened: (microphone: Microphone) => void;
    lost: (why: EarTrouble) => void;
    muted: (isMuted: boolean) => void;
  },
): KeptMicrophone {
  let microphone: Microphone | null = null;
  let known = new Set<string>();
  let wanted = false;
  let closed = false;
  let opening: Promise<EarTrouble | null> | null = null;
  let settling: unknown;
  let muting: unknown;
  let stopWatching: Cancel | null = null;

  const open = () =>
    (opening ??= openOnce().finally(() => {
      opening = null;
    }));

  const openOnce = async (): Promise<EarTrouble | null> => {
    let mine: Microphone | null = null;
    let isMuted = false;
    const asked = openMicrophone({
      ended: () => {
        if (mine !== null && microphone === mine) unplugged();
      },
      muted: (is) => {
        isMuted = is;
        if (mine !== null && microphone === mine) mute(is);
      },
    });
    const opened = await answerWithin(asked);
    if (typeof opened === 'string') return microphone === null ? opened : null;
    if (closed) {
      opened.close();
      return null;
    }
    mine = opened;
    microphone?.close();
    microphone = opened;
    wanted = true;
    mute(isMuted);
    known = await inputsNow();
    stopWatching ??= onDevices(changed);
    if (microphone === opened) tell.opened(opened);
    return null;
  };

  const inputsNow = async () => new Set(await inputs().catch(() => []));

  /** A request that nobody answers, or that a browser swallows, counts as denied. */
  const answerWithin = (asked: Promise<Microphone | EarTrouble>) =>
    new Promise<Microphone | EarTrouble>((resolve) => {
      let late = false;
      const watchdog = clock.setTimeout(() => {
        late = true;
        resolve('denied');
      }, ASKED_MILLISECONDS);
      void asked.then((opened) => {
        clock.clearTimeout(watchdog);
        if (late && typeof opened !== 'string') opened.close();
        resolve(opened);
      });
    });

  const unplugged = () => {
    clock.clearTimeout(muting);
    microphone?.close();
    microphone = null;
    tell.lost('unplugged');
  };

  const mute = (isMuted: boolean) => {
    clock.clearTimeout(muting);
    if (isMuted) muting = clock.setTimeout(() => tell.muted(true), MUTE_MILLISECONDS);
    else tell.muted(false);
  };

  const changed = () => {
    clock.clearTimeout(settling);
    settling = clock.setTimeout(() => void look(), SETTLE_MILLISECONDS);
  };
  const look = async () => {
    const [before, there] = [known, await inputsNow()];
    known = there;
    if (closed || !wanted) return;
    const isNew = [...there].some((input) => !before.has(input));
    const isGone = microphone === null;
    if (!isGone && !isNew) return;
    if ((await open()) === 'denied' && isGone) tell.lost('denied');
  };

  return {
    open,
    now: () => microphone,
    close: () => {
      closed = true;
      clock.clearTimeout(settling);
      clock.clearTimeout(muting);
      stopWatching?.();
      microphone?.close();
      microphone = null;
    },
  };
}
