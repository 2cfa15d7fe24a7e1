import type { Reply } from '../../src/domain/hearing/reply';
import type { SessionEvent } from '../../src/ports';
import { NO_LEVEL } from '../../src/screens/level/state';
import { createSeatStore, type Seat, type SeatState } from '../../src/screens/seat';
import { EMPTY_VIEW, viewOf, type TimedEvent, type View } from '../../src/screens/view';
import { BOOK } from './book';
import { fakeHomework } from './fakeHomework';
import { fakeKeys } from './fakeKeys';
import { fakeLock } from './fakeLock';
import { fakeMicrophoneCheck } from './fakeMicrophoneCheck';
import { fakePeople } from './fakePeople';
import { fakeRecord } from './fakeRecord';
import { fakeSquadDay } from './fakeSquadDay';
import { fakeVisits } from './fakeVisits';
import { fakeWarmUp } from './fakeWarmUp';

export const STATE: SeatState = {
  where: 'gate',
  book: BOOK,
  routines: [
    { id: 'hinge', name: 'Hinge' },
    { id: 'overhead', name: 'Overhead' },
  ],
  language: { chosen: 'en', all: ['en', 'es'], isHeard: true, notFetched: null },
  microphone: { state: 'unknown', level: 0, hearsWell: 'unknown' },
  ear: { state: 'ready', progress: null },
  voice: 'speaks',
  words: 'normal',
  music: { name: null, trouble: false },
  voices: { device: [], speaks: 'sayso', wordsPerMinute: null },
  offline: { state: 'ready', what: 'page', progress: 1, newVersion: null },
  unfinished: [],
  elsewhere: null,
  rehearsal: false,
  isHomework: false,
  coach: { readings: 0, ownWords: [], callWord: null, trouble: null },
  voiceCheck: null,
  microphoneCheck: null,
  keys: { own: [] },
  level: NO_LEVEL,
  squadDay: null,
  warmUp: null,
  record: { isSavingDue: false, lasting: null, damage: null },
  lock: { isOn: false, afterMinutes: 15, left: null, trouble: null },
  homework: { stage: { at: 'opening' }, kept: [], waits: false },
  people: { state: 'here', trouble: null, all: [], chosen: null, today: '2031-03-08' },
  visit: null,
  view: EMPTY_VIEW,
};

/** What a person did on the screens, and with what. */
export type Did = [what: string, ...withWhat: unknown[]];

export interface FakeSeat extends Seat {
  did: Did[];
  replies(): Reply[];
  patch(change: Partial<SeatState>): void;
  show(event: TimedEvent): void;
  setNow(seconds: number): void;
}

/** A seat without a session behind it: shows what it is told, remembers what is done. */
export function fakeSeat(
  change: Partial<SeatState> = {},
  /** What is wrong with own words, call words and what is to be kept. */
  answer: string | null = null,
): FakeSeat {
  const store = createSeatStore({ ...STATE, ...change });
  const did: Did[] = [];
  const replies: Reply[] = [];
  let now = 0;
  return {
    ...store,
    did,
    replies: () => replies,
    show: (event) => store.patch({ view: viewOf(store.state().view, event) }),
    setNow: (seconds) => {
      now = seconds;
    },
    people: fakePeople(did, answer),
    visits: fakeVisits(did),
    squadDay: fakeSquadDay(did),
    warmUp: fakeWarmUp(did, answer),
    record: fakeRecord(did, answer),
    lock: fakeLock(did, answer),
    homework: fakeHomework(did, answer),
    microphoneCheck: fakeMicrophoneCheck(did),
    keys: fakeKeys(did),
    level: {
      choose: (on) => did.push(['level.choose', on]),
      set: () => did.push(['level.set']),
      take: () => did.push(['level.take']),
    },
    elsewhere: {
      goOnHere: () => did.push(['goOnHere']),
      stop: () => did.push(['stopElsewhere']),
    },
    tryMicrophone: () => did.push(['tryMicrophone']),
    begin: (choice) => did.push(['begin', choice]),
    watchRehearsal: (routine) => did.push(['rehearsal', routine]),
    goOn: (session) => did.push(['goOn', session]),
    discard: (session) => did.push(['discard', session]),
    reply: (reply) => {
      did.push(['reply', reply]);
      replies.push(reply);
    },
    type: (text) => did.push(['type', text]),
    chooseLanguage: (language) => did.push(['chooseLanguage', language]),
    key: (event) => did.push(['key', event.key]),
    nowSeconds: () => now,
    playMusic: (file) => did.push(['playMusic', file.name]),
    removeMusic: () => did.push(['removeMusic']),
    chooseVoice: (id) => did.push(['chooseVoice', id]),
    chooseWords: (words) => did.push(['chooseWords', words]),
    checkVoice: () => did.push(['checkVoice']),
    steerVoiceCheck: (how) => did.push(['steerVoiceCheck', how]),
    forgetVoice: () => did.push(['forgetVoice']),
    addOwnWords: async (reply, typed) => {
      did.push(['addOwnWords', reply, typed]);
      return answer;
    },
    removeOwnWords: (words) => did.push(['removeOwnWords', words]),
    setCallWord: async (typed) => {
      did.push(['setCallWord', typed]);
      return answer;
    },
    takeNewVersion: () => did.push(['takeNewVersion']),
    leave: () => did.push(['leave']),
  };
}

/** The view after these events, all at second 0 unless they say otherwise. */
export const viewAfter = (events: (SessionEvent & { atSeconds?: number })[]): View =>
  events.reduce<View>(
    (view, event) => viewOf(view, { ...event, atSeconds: event.atSeconds ?? 0 }),
    EMPTY_VIEW,
  );
