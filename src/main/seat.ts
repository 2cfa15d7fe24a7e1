import type { ActorRefFrom } from 'xstate';
import { DEFAULT_SETTINGS, type Entry, type Words } from '../domain/log';
import { say } from '../domain/saying';
import type { RoutineId } from '../domain/script';
import { LANGUAGES } from '../cues/page';
import { attachHeadset } from '../ear/hands';
import { manyEars } from '../ear/manyEars';
import type { Cancel, Ear, EarTrouble, SessionEvent } from '../ports';
import {
  createSeatStore,
  type BeginChoice,
  type MicrophoneState,
  type Seat,
  type SeatState,
} from '../screens/seat';
import { EMPTY_VIEW, viewOf, viewOfLog } from '../screens/view';
import type { sessionMachine } from '../session/sessionMachine';
import { playSound } from '../sounding/playing';
import { COACH_VOICE } from '../voice/voices';
import { createVoiceCheckPlace } from './coach/voiceCheckPlace';
import { createDoor } from './door';
import { chooseLanguage, type ChosenCues } from './languageShelf';
import { deviceName, randomName } from './names';
import { createParts, type Parts } from './parts';
import { RehearsalPartner } from './rehearsalPartner';
import { musicUnder } from './musicUnder';
import { createOffline } from './offline';
import { createPeoplePlace, NOBODY } from './people/peoplePlace';
import { createUnfinished, REHEARSAL } from './unfinished';
import { stayAwake } from './wakefulness';
import { tellingWords } from './wordsShelf';

/** Where the page is not loaded anew. */
const BUSY = /^(run|finished|voiceCheck)$/;
/** What runs a session comes behind the gate, which does not need it. */
const loadSession = () => import('./sessionActor');

interface Running {
  session: string;
  actor: ActorRefFrom<typeof sessionMachine>;
  startedAtMilliseconds: number;
  partner: RehearsalPartner | null;
  sleepAgain: Cancel;
  detachHeadset: Cancel;
}

const MICROPHONE_OF: Record<EarTrouble, MicrophoneState> = {
  'no-microphone': 'none',
  denied: 'denied',
  unplugged: 'unplugged',
  'worker-failed': 'failed',
  'model-missing': 'failed',
};

/** Builds the adapters and starts the root actor, outside React; the screens get the seat. */
export function createSeat({ cues, missing: notFetched }: ChosenCues): Seat {
  const parts: Parts = createParts(cues, {
    onProgress: (progress) => store.patch({ ear: { state: 'loading', progress } }),
    onMicrophone: (hearsOverSound) => microphone({ hearsOverSound }),
    onCoach: () => store.patch({ coach: parts.coach.state() }),
    onVoices: () => store.patch({ voices: parts.voices.state() }),
    onRoomMade: () => tellOffline({ state: 'full' }),
  });
  const { beats, book, clock, coach, ear, hands, isHeard, records, tones, typed, voice } = parts;
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
    unfinished: null,
    rehearsal: false,
    coach: coach.state(),
    voiceCheck: null,
    people: NOBODY,
    visit: null,
    view: EMPTY_VIEW,
  });
  const people = createPeoplePlace({ ...parts, store });
  const unfinished = createUnfinished({ records, store });
  const underMusic = musicUnder(parts.music, clock);
  const voiceCheck = createVoiceCheckPlace({ parts, store, openMicrophone });
  const door = createDoor();
  let running: Running | null = null;
  let isStarting = false;

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
  void unfinished.look();
  void people.look();
  // Fetches the shipped voice behind the gate, and has the words ready that must come at once; not
  // before the ear hears, whose files are fewer and wanted sooner.
  const prepareVoice = () =>
    loadSession().then(({ textsAtOnce }) => voice.prepare(textsAtOnce(book)), notAllArrived);
  const offline = createOffline({
    base: parts.assetsBase,
    tell: tellOffline,
    isFree: () => !isStarting && !BUSY.test(store.state().where),
  });
  const behindTheEar = () => void prepareVoice().then(offline.start);
  ear.ready.then(behindTheEar, behindTheEar);

  function tellOffline(change: Partial<SeatState['offline']>) {
    store.patch({ offline: { ...store.state().offline, ...change } });
  }
  const notAllArrived = () => tellOffline({ state: 'incomplete' });

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

  function endRunning() {
    running?.partner?.leave();
    running?.actor.stop();
    running?.sleepAgain();
    running?.detachHeadset();
    underMusic.leave();
    running = null;
  }

  async function start(
    session: string,
    routine: RoutineId,
    log: Entry[],
    rehearsal: boolean,
    chosen?: Pick<BeginChoice, 'way' | 'missing'>,
  ) {
    if (isStarting) return;
    isStarting = true;
    const arrived = await loadSession().catch(notAllArrived);
    isStarting = false;
    if (arrived === undefined) return;
    endRunning();
    const partner = rehearsal ? createPartner() : null;
    const began = log.find((entry) => entry.type === 'started');
    const startedAtMilliseconds = began === undefined ? clock.now() : Date.parse(began.startedAt);
    const listening: Ear = manyEars([ear, hands, door, typed]);
    // A coach's own words and call word are of the language that the ear hears.
    const ownCallWord = isHeard ? coach.callWord() : null;
    const callWord = began === undefined ? ownCallWord : (began.callWord ?? null);
    if (isHeard) void coach.fitEar(rehearsal ? 'stranger' : 'coach', callWord);
    const way = began?.way ?? chosen?.way ?? 'hands-on';
    parts.manner.speakFor(way);
    const actor = arrived.createSessionActor({
      book: rehearsal || !isHeard ? book : coach.book(),
      secondsOf: parts.secondsOf,
      session,
      device: deviceName(),
      routine,
      way,
      settings: rehearsal ? DEFAULT_SETTINGS : { ...DEFAULT_SETTINGS, words: store.state().words },
      missing: chosen?.missing,
      ...(!rehearsal && people.forSession()),
      ...(callWord !== null && !rehearsal && { callWord }),
      utcOffsetMinutes: -new Date(clock.now()).getTimezoneOffset(),
      log,
      ports: {
        ...{ clock, ear: listening, voice, tones, beats, screen: { show } },
        records: rehearsal ? records : tellingWords(records, chooseWords),
      },
    });
    running = {
      ...{ session, actor, startedAtMilliseconds, partner, sleepAgain: stayAwake() },
      detachHeadset: attachHeadset(
        hands,
        'mediaSession' in navigator ? navigator.mediaSession : undefined,
      ),
    };
    store.patch({ where: 'run', rehearsal, view: viewOfLog(log) });
    actor.start();
  }

  function show(event: SessionEvent & { atSeconds: number }) {
    const change: Partial<SeatState> = { view: viewOf(store.state().view, event) };
    if (event.type === 'trouble' && event.what === 'no-voice') change.voice = 'none';
    if (event.type === 'end') {
      change.where = 'finished';
      running?.sleepAgain();
      if (running !== null) void people.lookAtVisit(running.session);
    }
    store.patch(change);
    underMusic.show(event);
    if (event.type === 'listen') running?.partner?.asked(event.prompt);
  }

  const createPartner = () =>
    new RehearsalPartner({
      clock,
      make: (text) => parts.synthesis.make(text, COACH_VOICE, 'now'),
      feed: ({ samples, sampleRate }) => ear.feed(samples, sampleRate),
      play: (sound) => void playSound(tones.output(), sound, { volume: 1 }),
    });

  return {
    subscribe: store.subscribe,
    state: store.state,
    people,
    tryMicrophone: () => {
      unlockSound();
      void openMicrophone();
    },
    begin({ routine, listen, ...chosen }) {
      unlockSound();
      door.open();
      if (listen === 'microphone') void openMicrophone();
      start(randomName(), routine, [], false, chosen);
    },
    watchRehearsal(routine) {
      unlockSound();
      door.open();
      start(`${REHEARSAL}${randomName()}`, routine, [], true);
    },
    goOn() {
      unlockSound();
      const { unfinished: head } = store.state();
      if (head === null) return;
      void openMicrophone();
      records.read(head.session).then(
        (log) => {
          const began = log.find((entry) => entry.type === 'started');
          // Its questions are in its own language: the page comes back with it, at this gate.
          if (began !== undefined && began.language !== book.language)
            return chooseLanguage(began.language);
          people.choose(head.person);
          start(head.session, head.routine, log, false);
        },
        () => store.patch({ unfinished: null }),
      );
    },
    discard: unfinished.discard,
    reply: (reply) => hands.reply(reply),
    type: (text) => typed.type(text),
    chooseLanguage,
    key: (event) => void hands.key(event),
    nowSeconds: () => (running === null ? 0 : (clock.now() - running.startedAtMilliseconds) / 1000),
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
    checkVoice() {
      unlockSound();
      void voiceCheck.begin();
    },
    steerVoiceCheck: (how) => voiceCheck.steer(how),
    forgetVoice: () => coach.forgetVoice(),
    addOwnWords: async (reply, typed) =>
      (await import('./coach/words')).takeOwnWords(coach, reply, typed),
    removeOwnWords: (words) => coach.removeWords(words),
    setCallWord: async (typed) => (await import('./coach/words')).takeCallWord(coach, typed),
    takeNewVersion: offline.takeNewVersion,
    leave() {
      voiceCheck.leave();
      endRunning();
      if (isHeard) void coach.fitEar('coach');
      store.patch({ where: people.placeAfter(), rehearsal: false, visit: null, view: EMPTY_VIEW });
      void unfinished.look();
      void people.look();
    },
  };
}
