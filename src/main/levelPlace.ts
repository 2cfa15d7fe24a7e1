import { DEFAULT_SETTINGS } from '../domain/log';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import type { LineProblem } from '../domain/tilt/line';
import { SETTING, settingAfter, taken, type Setting } from '../domain/tilt/setting';
import type { Cancel, Clock, Ear, Hearing, Level, LevelOn, Tones, Voice } from '../ports';
import { NO_LEVEL, type LevelHands, type LevelState } from '../screens/level/state';
import type { SeatStore } from '../screens/seat';
import type { DeviceTilt } from '../tilt/deviceTilt';

/** What understands comes once a level is wanted; until then hands say that it lies as it should. */
const loadHearing = () => import('../domain/hearing/understanding');

/** Silent for so long while it is being set, the sensor has dropped out. */
const SILENT_MILLISECONDS = 1500;

export interface LevelPlace extends LevelHands {
  /** The level of the next session, or nothing where none was set. */
  forSession(): { level?: Level };
  /** After a session: straps come off, so it is set anew for the next. */
  leave(): void;
}

interface LevelParts {
  parts: { book: CueBook; clock: Clock; tones: Tones; voice: Pick<Voice, 'say'> };
  store: SeatStore;
  sensor: DeviceTilt;
  /** Who may say that the limb is in its place. */
  listening: Ear;
  /** Inside a tap, before anything sounds. */
  unlockSound: () => void;
}

/** The place at the seat of the phone as a level: the sensor, and the two steps that set it. */
export function createLevelPlace({
  parts: { book, clock, tones, voice },
  store,
  sensor,
  listening,
  unlockSound,
}: LevelParts): LevelPlace {
  let setting: Setting | null = null;
  let level: Level | null = null;
  let hush: Cancel = () => undefined;
  let leaveSensor: Cancel = () => undefined;
  let leaveEar: Cancel = () => undefined;
  let silence: unknown;
  let hears: Awaited<ReturnType<typeof loadHearing>> | null = null;

  const now = () => store.state().level;
  const tell = (change: Partial<LevelState>) =>
    store.patch({ level: { ...now(), trouble: null, ...change } });
  const speak = (key: string, ended: () => void = () => undefined) => {
    hush();
    hush = voice.say(say(book.lines, `level.${key}`, {}), { ended });
  };

  /** Ends the two steps, wherever they stand. */
  function endSetting() {
    hush();
    leaveSensor();
    leaveEar();
    clock.clearTimeout(silence);
    setting = null;
  }
  function fail(trouble: LineProblem | 'dropped-out') {
    endSetting();
    tones.play('not-understood');
    tell({ stage: 'ready', trouble });
    speak(trouble);
  }
  function awaitNext() {
    clock.clearTimeout(silence);
    silence = clock.setTimeout(() => fail('dropped-out'), SILENT_MILLISECONDS);
  }
  function goOn(after: Setting, on: LevelOn) {
    const isNew = after.at !== setting?.at;
    setting = after;
    if (!isNew) return;
    if (after.at === 'failed') return fail(after.problem);
    if (after.at === 'set') {
      endSetting();
      level = { sensor, on, line: after.line };
      speak('set');
    }
    if (after.at === 'turning') speak(`${on}-second`);
    if (after.at === 'turning' || after.at === 'set') tones.play('accepted');
    tell({ stage: after.at });
  }
  function take() {
    const { on } = now();
    if (setting !== null && on !== null) goOn(taken(setting), on);
  }
  const isReady = (hearing: Hearing): boolean => {
    if (hearing.type === 'reply') return hearing.reply.command === 'ready';
    if (hearing.type !== 'words' || hears === null) return false;
    const { text, confidence } = hearing;
    const { verdict, reply } = hears.understand(book, 'idle', text, {
      ...DEFAULT_SETTINGS,
      confidence,
    });
    return verdict === 'accept' && reply?.command === 'ready';
  };

  function set() {
    const { on, stage } = now();
    if (on === null || stage === 'off' || stage === 'opening') return;
    unlockSound();
    endSetting();
    level = null;
    tell({ stage: 'first' });
    listening.attend('idle');
    leaveEar = listening.listen((hearing) => {
      if (isReady(hearing)) take();
    });
    awaitNext();
    leaveSensor = sensor.listen((telling) => {
      if (telling.type === 'lost') return fail('dropped-out');
      awaitNext();
      if (setting !== null) goOn(settingAfter(setting, telling.sample), on);
    });
    // What lies still while it is being told how to be strapped is no limb yet.
    speak(`${on}-strap`, () =>
      speak(`${on}-first`, () => {
        setting = SETTING;
      }),
    );
  }

  function off() {
    endSetting();
    sensor.close();
    level = null;
    store.patch({ level: NO_LEVEL });
  }

  let person = store.state().people.chosen;
  store.subscribe(() => {
    const { chosen } = store.state().people;
    if (chosen === person) return;
    person = chosen;
    // It is strapped to somebody else, if to anybody.
    if (now().on !== null) off();
  });

  return {
    choose(on) {
      if (on === null) return off();
      unlockSound();
      endSetting();
      level = null;
      tell({ on, stage: 'opening' });
      loadHearing().then(
        (arrived) => (hears = arrived),
        () => undefined,
      );
      void sensor.open().then((trouble) => {
        if (now().on !== on) return;
        if (trouble === null) tell({ stage: 'ready' });
        else store.patch({ level: { on: null, stage: 'off', trouble } });
      });
    },
    set,
    take,
    forSession() {
      endSetting();
      return level === null ? {} : { level };
    },
    leave: off,
  };
}
