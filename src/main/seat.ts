import type { Words } from '../domain/log';
import { NO_REPLY } from '../domain/hearing/reply';
import { say } from '../domain/saying';
import type { RoutineId } from '../domain/script';
import { LANGUAGES } from '../cues/page';
import { manyEars } from '../ear/manyEars';
import type { EarTrouble } from '../ports';
import {
  createSeatStore,
  type BeginChoice,
  type MicrophoneState,
  type Seat,
  type SeatState,
} from '../screens/seat';
import { NO_LEVEL } from '../screens/level/state';
import { EMPTY_VIEW } from '../screens/view';
import { createDeviceTilt } from '../tilt/deviceTilt';
import { createVoiceCheckPlace } from './coach/voiceCheckPlace';
import { createDoor } from './door';
import { windowAddress } from './homework/address';
import { createHomeworkHands, HOMEWORK } from './homework/homeworkHands';
import { chooseLanguage, type ChosenCues } from './languageShelf';
import { createLockPlace, lockStateOf } from './lock/lockPlace';
import type { PageLock } from './lock/pageLock';
import { createKeysPlace } from './keysPlace';
import { randomName } from './names';
import { createLevelPlace } from './levelPlace';
import { createParts, type Parts } from './parts';
import { createOffline } from './offline';
import { createMicrophonePlace } from './microphone/microphonePlace';
import { createPeoplePlace, NOBODY } from './people/peoplePlace';
import { createVisitPlace } from './people/visitPlace';
import { createRecordHands, RECORD } from './record/recordHands';
import { createRunning, loadSession, staysAt } from './running';
import { channelOf, createLine } from './tabs/line';
import { createTabsPlace, LOST_HERE } from './tabs/tabsPlace';
import { createSquadDayPlace } from './squadDay/squadDayPlace';
import { createUnfinished, REHEARSAL } from './unfinished';
import { createWarmUpPlace } from './warmUp/warmUpPlace';

/** Where the page is not loaded anew. */
const BUSY = /^(run|finished|voiceCheck|microphone|squadDay|warmUp|import|record|homework)$/;
/** Whether something runs that is never locked. */
const isRunning = ({ where, squadDay, warmUp }: SeatState): boolean =>
  /^(run|voiceCheck|microphone)$/.test(where) ||
  warmUp?.stage === 'running' ||
  squadDay?.stage === 'between' ||
  squadDay?.stage === 'running';
const MICROPHONE_OF: Record<EarTrouble, MicrophoneState> = {
  'no-microphone': 'none',
  denied: 'denied',
  unplugged: 'unplugged',
  interrupted: 'interrupted',
  'worker-failed': 'failed',
  'model-missing': 'failed',
};

const GONE =
  'Its tab was closed in mid-session. Nothing that was said is lost: go on with it here.';
const NOT_TAKEN_UP =
  'This session could not be read, so it did not go on. It stays in the record; load the page anew and try it again.';

/** Builds the adapters and starts the root actor, outside React; the screens get the seat. */
export function createSeat({ cues, missing: notFetched }: ChosenCues, page: PageLock): Seat {
  const parts: Parts = createParts(
    cues,
    {
      onProgress: (progress) => store.patch({ ear: { state: 'loading', progress } }),
      onMicrophone: (hearsOverSound) => microphone({ hearsOverSound }),
      onCoach: () => store.patch({ coach: parts.coach.state() }),
      onVoices: () => store.patch({ voices: parts.voices.state() }),
      onRoomMade: () => tellOffline({ state: 'full' }),
      names: () => store.state().people.all.map(({ person }) => person.name),
    },
    page.vault,
  );
  const { book, coach, ear, hands, isHeard, records, tones, typed, voice } = parts;
  const store = createSeatStore({
    where: 'people',
    book,
    routines: Object.values(book.routines).map(({ id, name }) => ({ id, name })),
    language: { chosen: book.language, all: LANGUAGES, isHeard, notFetched },
    microphone: { state: 'unknown', level: 0, hearsWell: 'unknown' },
    ear: { state: 'loading', progress: null },
    voice: 'unknown',
    voices: parts.voices.state(),
    words: parts.words.load(),
    music: { name: null, trouble: false },
    offline: { state: 'unknown', what: 'page', progress: 0, newVersion: null },
    unfinished: [],
    elsewhere: null,
    rehearsal: false,
    isHomework: false,
    coach: coach.state(),
    voiceCheck: null,
    microphoneCheck: null,
    keys: { own: [] },
    level: NO_LEVEL,
    people: NOBODY,
    record: RECORD,
    lock: lockStateOf(page),
    homework: HOMEWORK,
    squadDay: null,
    warmUp: null,
    visit: null,
    view: EMPTY_VIEW,
  });
  const people = createPeoplePlace({ ...parts, store });
  const visits = createVisitPlace({ ...parts, store, lookAtPeople: people.look });
  const microphoneCheck = createMicrophonePlace({ parts, store, openMicrophone });
  const keys = createKeysPlace({ parts, store });
  const voiceCheck = createVoiceCheckPlace({ parts, store, openMicrophone });
  const door = createDoor();
  const listening = manyEars([ear, hands, door, typed]);
  const sensor = createDeviceTilt({ scope: window, clock: parts.clock });
  const level = createLevelPlace({
    ...{ parts, store, sensor, listening },
    unlockSound: () => unlockSound(),
  });
  const tabs = createTabsPlace({
    ...{ clock: parts.clock, store, locks: navigator.locks as LockManager | undefined },
    line: createLine(channelOf('sayso')),
    here: () => running.runsHere(),
    stop: () => hands.reply({ ...NO_REPLY, command: 'stop' }),
    giveUp: () => running.giveUp().finally(leftHere),
    yieldHere() {
      running.end();
      leftHere();
    },
    goOn,
    prepare: () => unlockSound(),
    changed(gone) {
      void unfinished.look().then(() => gone !== null && unfinished.tell(gone, GONE));
      void people.look();
    },
  });
  const running = createRunning({
    ...{ parts, store, level, listening, people, visits, chooseWords, notAllArrived, tabs },
  });
  const squadDay = createSquadDayPlace({
    ...{ parts, store, listening, people, running, chooseLanguage },
    ...{ begins, stays },
    freed() {
      tabs.release();
      void unfinished.look();
    },
    storage: () => page.texts,
  });
  const warmUp = createWarmUpPlace({
    ...{ parts, store, listening, begins, stays, storage: () => localStorage },
  });
  const isTaken = (session: string) => squadDay.holds(session) || tabs.runs(session);
  const unfinished = createUnfinished({ book, records, store, isTaken });

  const microphone = (change: Partial<SeatState['microphone']>) =>
    store.patch({ microphone: { ...store.state().microphone, ...change } });
  ear.ready.then(
    () => store.patch({ ear: { state: 'ready', progress: 1 } }),
    () => store.patch({ ear: { state: 'failed', progress: null } }),
  );
  ear.onSize((size, why) => store.patch({ ear: { state: 'ready', progress: 1, size, why } }));
  ear.onLevel((level, hearsWell) => microphone({ level, hearsWell }));
  ear.listen((hearing) => {
    if (hearing.type === 'deaf') microphone({ state: MICROPHONE_OF[hearing.why] });
    if (hearing.type === 'hears-again') microphone({ state: 'hears' });
  });
  const record = createRecordHands({
    ...{ parts, store, storage: () => localStorage },
    changed() {
      void people.look();
      void unfinished.look();
    },
    manager: navigator.storage as StorageManager | undefined,
  });
  const homework = createHomeworkHands({
    ...{ parts, store, begins, storage: () => page.texts },
    running: {
      start: running.start,
      end() {
        running.end();
        tabs.release();
      },
    },
    ...{ address: windowAddress(parts.assetsBase), isStarting: running.isStarting },
    changed: people.look,
  });
  const lock = createLockPlace({
    ...{ page, store, clock: parts.clock },
    isBusy: () => running.isStarting() || isRunning(store.state()),
    isHolding: () => records.isHolding?.() ?? false,
  });
  ear.listen(({ type }) => {
    if (type === 'words') lock.touched();
  });
  void unfinished.look();
  void people.look();
  void record.lookDue();
  void homework.look();
  // Fetches the shipped voice behind the gate, and has the words ready that must come at once; not
  // before the ear hears, whose files are fewer and wanted sooner.
  const prepareVoice = () =>
    loadSession().then(({ textsAtOnce }) => voice.prepare(textsAtOnce(book)), notAllArrived);
  const offline = createOffline({
    base: parts.assetsBase,
    tell: tellOffline,
    isFree: () => !running.isStarting() && !BUSY.test(store.state().where),
  });
  const behindTheEar = () => void prepareVoice().then(offline.start);
  ear.ready.then(behindTheEar, behindTheEar);

  function tellOffline(change: Partial<SeatState['offline']>) {
    store.patch({ offline: { ...store.state().offline, ...change } });
  }
  function notAllArrived() {
    tellOffline({ state: 'incomplete' });
  }

  function stays() {
    return staysAt(parts);
  }
  /** Inside the tap that begins. */
  function begins(listen: BeginChoice['listen']) {
    unlockSound();
    door.open();
    if (listen === 'microphone') void openMicrophone();
  }

  async function openMicrophone() {
    if (!isHeard || store.state().microphone.state === 'hears') return;
    microphone({ state: 'asking' });
    const trouble = await ear.open();
    microphone({ state: trouble === null ? 'hears' : MICROPHONE_OF[trouble] });
    if (trouble === null) door.open();
    else door.shut(trouble);
  }

  /** A line more may have been measured. */
  const voicesKnown = () => store.patch({ voices: parts.voices.state() });

  function chooseWords(words: Words) {
    parts.words.save(words);
    store.patch({ words });
  }

  const unlockSound = () => {
    tones.unlock().catch(() => undefined);
  };

  function goOn(session: string) {
    if (tabs.wasLost(session)) return unfinished.tell(session, LOST_HERE);
    unlockSound();
    void openMicrophone();
    void records.read(session).then(
      (log) => {
        const began = log.find((entry) => entry.type === 'started');
        if (began === undefined) return unfinished.tell(session, NOT_TAKEN_UP);
        // Its questions are in its own language: the page comes back with it, at this gate.
        if (began.language !== book.language) return chooseLanguage(began.language);
        people.choose(began.person ?? null);
        void running.start({ session, routine: began.routine, log, ...homework.goesOn(began) });
      },
      () => unfinished.tell(session, NOT_TAKEN_UP),
    );
  }

  /** Another tab goes on with what ran here, unless it stays. */
  function leftHere() {
    if (running.runsHere() !== null) return;
    level.leave();
    store.patch({ where: 'people', rehearsal: false, visit: null, view: EMPTY_VIEW });
    void unfinished.look();
    void people.look();
  }

  /** The microphone is one tab's: what needs it begins only where no session runs in another. */
  const alone =
    <A extends unknown[]>(run: (...args: A) => void) =>
    (...args: A) =>
      tabs.unlessElsewhere(() => run(...args));

  return {
    subscribe: store.subscribe,
    state: store.state,
    people: {
      ...people,
      async removeInvented() {
        const trouble = await people.removeInvented();
        void unfinished.look();
        void record.lookDue();
        return trouble;
      },
    },
    visits,
    microphoneCheck: { ...microphoneCheck, begin: alone(microphoneCheck.begin) },
    keys,
    level,
    squadDay: { ...squadDay, begin: alone(squadDay.begin), goOn: alone(squadDay.goOn) },
    warmUp: { ...warmUp, begin: alone(warmUp.begin) },
    record,
    lock,
    elsewhere: { goOnHere: tabs.goOnHere, stop: tabs.stop },
    homework: { ...homework, begin: alone(homework.begin) },
    tryMicrophone: () => {
      unlockSound();
      void openMicrophone();
    },
    begin: alone(({ listen, ...chosen }: BeginChoice) => {
      const session = people.nameSession(store.state().people.chosen);
      begins(listen);
      void running.start({ session, log: [], ...chosen });
    }),
    watchRehearsal: alone((routine: RoutineId) => {
      unlockSound();
      door.open();
      const session = `${REHEARSAL}${randomName()}`;
      void running.start({ session, routine, log: [], isRehearsal: true });
    }),
    goOn: alone(goOn),
    discard: unfinished.discard,
    reply: (reply) => hands.reply(reply),
    type: (text) => typed.type(text),
    chooseLanguage,
    key: (event) => void hands.key(event),
    nowSeconds: () => warmUp.nowSeconds() ?? running.nowSeconds(),
    playMusic(file) {
      unlockSound();
      store.patch({ music: { name: file.name, trouble: false } });
      parts.music.play(file, () => store.patch({ music: { name: null, trouble: true } }));
    },
    removeMusic() {
      parts.music.remove();
      store.patch({ music: { name: null, trouble: false } });
    },
    chooseVoice(id) {
      unlockSound();
      parts.voices.choose(id);
      voice.say(say(book.lines, 'say.welcome', {}), { ended: voicesKnown });
    },
    chooseWords,
    checkVoice: alone(() => {
      unlockSound();
      void voiceCheck.begin();
    }),
    steerVoiceCheck: (how) => voiceCheck.steer(how),
    forgetVoice: () => coach.forgetVoice(),
    addOwnWords: async (reply, typed) =>
      (await import('./coach/words')).takeOwnWords(coach, reply, typed),
    removeOwnWords: (words) => coach.removeWords(words),
    setCallWord: async (typed) => (await import('./coach/words')).takeCallWord(coach, typed),
    takeNewVersion: offline.takeNewVersion,
    leave() {
      voiceCheck.leave();
      running.end();
      level.leave();
      tabs.release();
      if (isHeard) void coach.fitEar('coach');
      store.patch({ where: people.placeAfter(), rehearsal: false, visit: null, view: EMPTY_VIEW });
      void unfinished.look();
      void people.look();
      void record.lookDue();
      void homework.look();
    },
  };
}
