import { DEFAULT_SETTINGS, type EndReason } from '../../domain/log';
import * as days from '../../domain/people/squadDay';
import type { SquadDay } from '../../domain/people/squadDay';
import { say } from '../../domain/saying';
import type { Cancel, Ear, Hearing, SessionEvent } from '../../ports';
import type { SeatStore } from '../../screens/seat';
import type { SquadDayChoice, SquadDayHands, SquadDayState } from '../../screens/squadDay/state';
import { EMPTY_VIEW, viewOf } from '../../screens/view';
import type { TextStorage } from '../lock/personalTexts';
import { musicUnder } from '../musicUnder';
import { notKept } from '../people/notKept';
import { momentAt } from '../../session/startedAt';
import type { Parts } from '../parts';
import type { PeoplePlace } from '../people/peoplePlace';
import { loadSession, type Running } from '../running';
import { createDayShelf, type KeptDay } from './dayShelf';
import { nextTexts } from './saying';
import { noteOf, signOf, type SignHeard } from './signs';

/** What listens between two sessions comes when it is needed first. */
const loadBetween = () => import('./betweenActor');

/** The place at the seat of a squad day. */
export interface SquadDayPlace extends SquadDayHands {
  /** Whether that session belongs to the day that is under way, which takes it up itself. */
  holds(session: string): boolean;
}

/** Nobody is to be seen. */
const NOBODY: SquadDay = { now: null, waiting: [], later: [], seen: [] };
const CHOOSING: SquadDayState = {
  ...{ stage: 'choosing', day: NOBODY, asks: 'ready', trouble: null },
};
/** Said first after a warning sign of which no session knows. */
const SIGN_BETWEEN = 'say.flag-between';
const NOT_ARRIVED =
  'A part of Sayso did not arrive. Connect to the network, and go on with the squad day.';
const notNoted = (why: string) =>
  `The warning sign is not noted yet: write it down. ${why.replace(/^./, (letter) => letter.toUpperCase())}`;
const notRead = (name: string) =>
  `The session that was left open for ${name} could not be read. It stays in the record, and a new one begins.`;

interface SquadDayParts {
  parts: Pick<
    Parts,
    | 'beats'
    | 'book'
    | 'clock'
    | 'coach'
    | 'isHeard'
    | 'manner'
    | 'music'
    | 'notes'
    | 'records'
    | 'secondsOf'
    | 'tones'
    | 'voice'
  >;
  store: SeatStore;
  /** Everything that hears replies. */
  listening: Ear;
  people: Pick<PeoplePlace, 'choose' | 'look' | 'nameSession'>;
  running: Pick<Running, 'start' | 'end'>;
  /** Unlocks what a tap unlocks, and opens the microphone where it is wanted. */
  begins: (listen: SquadDayChoice['listen']) => void;
  /** Keeps the screen on and the headset joined until cancelled. */
  stays: () => Cancel;
  /** Its sessions are anybody's again. */
  freed: () => void;
  /** Loads the page anew in the language of the day. */
  chooseLanguage: (language: string) => void;
  storage: () => TextStorage;
}

export function createSquadDayPlace({
  parts,
  store,
  listening,
  people,
  running,
  begins,
  stays,
  freed,
  chooseLanguage,
  storage,
}: SquadDayParts): SquadDayPlace {
  const { beats, book, clock, coach, isHeard, notes, records, secondsOf, tones, voice } = parts;
  const shelf = createDayShelf(storage);
  const underMusic = musicUnder(parts.music, clock);
  let under: KeptDay | null = null;
  /** Whose session ran last in this page. */
  let lastRan: string | null = null;
  let leaveBetween: Cancel = () => undefined;
  let hush: Cancel = () => undefined;

  const patch = (change: Partial<SquadDayState>) =>
    store.patch({ squadDay: { ...(store.state().squadDay ?? CHOOSING), ...change } });
  const line = (key: string, values: Record<string, string> = {}) => say(book.lines, key, values);
  const nameOf = (id: string) =>
    store.state().people.all.find(({ person }) => person.id === id)?.person.name ?? '';

  /** The day as it stands from now on, on this device too. */
  function keep(kept: KeptDay, change: Partial<SquadDayState> = {}): KeptDay {
    under = kept;
    shelf.save(kept);
    patch({ ...change, day: kept.day, signs: kept.signs });
    return kept;
  }

  const amongKept = ({ day, signs, ...rest }: KeptDay): KeptDay => ({
    ...rest,
    day: days.among(day, (id) => nameOf(id) !== ''),
    signs: signs.filter(({ person }) => nameOf(person) !== ''),
  });

  /** A warning sign is kept at once, then noted; nobody is named before it was seen to. */
  function keepSign(heard: SignHeard) {
    if (under === null) return;
    const now = clock.now();
    const at = momentAt(now, -new Date(now).getTimezoneOffset());
    const sign = signOf(under.day, lastRan, heard, at, people.nameSession);
    if (sign !== null) keep({ ...under, signs: [...under.signs, sign] });
    void wait([], SIGN_BETWEEN);
  }

  /** Notes what is not noted yet; what cannot be is told, and tried again before the next one. */
  async function noteSigns() {
    for (const sign of under?.signs.filter(({ isNoted }) => !isNoted) ?? []) {
      try {
        await notes.add(noteOf(sign));
      } catch (error) {
        tones.play('not-stored');
        return patch({ trouble: notNoted(notKept(error)) });
      }
      if (under === null) return;
      const signs = under.signs.map((one) =>
        one.id === sign.id ? { ...one, isNoted: true } : one,
      );
      keep({ ...under, signs }, { trouble: null });
    }
  }

  /**
   * Says who is next, after `before`, and waits for what is wanted then. `help`: what is said
   * instead of who is next where somebody is unwell; that comes first.
   */
  async function wait(before: string[] = [], help: string | null = null): Promise<void> {
    const isUnwell = help !== null;
    const asksFirst = !isUnwell ? 'ready' : help === SIGN_BETWEEN ? 'sign' : 'help';
    leaveBetween();
    running.end();
    if (under === null) return;
    const kept = keep(amongKept(under), {
      ...{ stage: 'between', asks: asksFirst },
    });
    parts.manner.speakFor(kept.choice.way);
    const [next] = days.toCome(kept.day);
    if (next === undefined && !isUnwell) return finish('say.all-seen', before);
    void noteSigns();
    store.patch({ where: 'squadDay', rehearsal: false, view: EMPTY_VIEW });
    const texts = isUnwell
      ? [line(help), line('say.when-ready')]
      : [...before, ...nextTexts(book, kept.day, nameOf(next?.person ?? ''))];
    let isLeft = false;
    let stop: Cancel = () => undefined;
    const goAway = stays();
    leaveBetween = () => {
      isLeft = true;
      stop();
      goAway();
      underMusic.leave();
    };
    // A tap on "Ready" counts from when the button is seen, before what listens has arrived.
    const early = keepingHands(listening);
    // With what runs the session, so that nothing said is lost while that would load.
    const arrived = await Promise.all([loadBetween(), loadSession()]).then(
      ([between]) => between,
      () => null,
    );
    if (isLeft || arrived === null) early.drop();
    if (isLeft) return;
    if (arrived === null) return standStill();
    const between = arrived.startBetween(
      {
        book: isHeard ? coach.book() : book,
        ports: { clock, ear: early, voice, tones, beats, screen: { show } },
        secondsOf,
        settings: DEFAULT_SETTINGS,
        callWord: isHeard ? coach.callWord() : null,
        texts,
        cannotPutOff: isUnwell
          ? line('say.day-waits')
          : days.mayPutOff(kept.day)
            ? null
            : line('say.nobody-else'),
      },
      {
        asks: (asks) => {
          if (!isLeft) patch({ asks: asks === 'ready' ? asksFirst : asks });
        },
        then: (then) => {
          if (isLeft) return;
          leaveBetween();
          if (then.do === 'end') finish('say.day-over');
          else if (then.do === 'sign') keepSign(then);
          else if (then.do === 'put-off') putOff();
          else if (isUnwell) void wait();
          else void takeTurn();
        },
      },
    );
    stop = between.stop;
    if (isLeft) stop();
  }

  function show(event: SessionEvent & { atSeconds: number }) {
    store.patch({ view: viewOf(store.state().view, event) });
    if (event.type === 'trouble' && event.what === 'no-voice') store.patch({ voice: 'none' });
    underMusic.show(event);
  }

  /** Something did not arrive: the day is kept, and offered again. */
  function standStill() {
    leaveBetween();
    if (under === null) return;
    keep({ ...under, day: days.cutOff(under.day) }, { stage: 'kept', trouble: NOT_ARRIVED });
    store.patch({ where: 'people' });
    freed();
  }

  function putOff() {
    if (under === null) return;
    const who = under.day.now ?? days.toCome(under.day)[0];
    keep({ ...under, day: days.putOff(under.day) });
    const name = who === undefined ? '' : nameOf(who.person);
    void wait([line('say.comes-later', { name })]);
  }

  /** The next one's session begins, or goes on at the question that was left open. */
  async function takeTurn() {
    if (under === null) return;
    const { choice, day } = keep(
      { ...under, day: days.begun(under.day, nameOfNext(under)) },
      { stage: 'running', trouble: null },
    );
    if (day.now === null) return;
    const { person, session } = day.now;
    people.choose(person);
    const log = await records.read(session ?? '').catch(() => null);
    if (log === null) patch({ trouble: notRead(nameOf(person)) });
    const { routine, way, missing } = choice;
    const runs = await running.start({
      session: log === null || session === null ? beginAnew() : session,
      ...{ routine, way, missing, log: log ?? [], over },
      othersWait: days.mayPutOff(day),
    });
    if (!runs) standStill();
  }

  /** The name of the session that begins: a warning sign may be noted under it already. */
  const nameOfNext = ({ day, signs }: KeptDay): string => {
    const [next] = days.toCome(day);
    return (
      signs.findLast(({ person }) => person === next?.person)?.session ??
      people.nameSession(next?.person ?? null)
    );
  };

  /** What was left open cannot be read: the turn gets another session. */
  function beginAnew(): string {
    const session = people.nameSession(under?.day.now?.person ?? null);
    if (under?.day.now != null) {
      keep({ ...under, day: { ...under.day, now: { ...under.day.now, session } } });
    }
    return session;
  }

  function over(how: EndReason | 'left') {
    if (under === null) return;
    lastRan = under.day.now?.person ?? null;
    if (how === 'left') putOff();
    else {
      keep({ ...under, day: days.ended(under.day) });
      void wait([], how === 'red-flag' ? 'say.day-waits' : null);
    }
    void people.look();
  }

  function finish(key: string, before: string[] = []) {
    leaveBetween();
    void noteSigns();
    patch({ stage: 'over' });
    store.patch({ where: 'squadDay', people: { ...store.state().people, chosen: null } });
    hush = voice.say([...before, line(key)].join(' '), { ended: () => undefined });
    void people.look();
  }

  const found = shelf.load();
  if (found === 'damaged') {
    shelf.forget();
    patch({ stage: 'dropped' });
  } else if (found !== null) {
    const day = days.cutOff(found.day);
    keep({ ...found, day }, { stage: days.toCome(day).length > 0 ? 'kept' : 'over' });
  }

  return {
    holds: (session) =>
      under !== null && days.everyTurn(under.day).some((turn) => turn.session === session),
    show() {
      const isNew = under === null;
      store.patch({ where: 'squadDay', ...(isNew && { squadDay: CHOOSING }) });
    },
    keepDraft(draft) {
      if (store.state().squadDay?.stage === 'choosing') patch({ draft });
    },
    begin({ people: ids, ...choice }) {
      begins(choice.listen);
      if (isHeard) void coach.fitEar('coach', coach.callWord());
      lastRan = null;
      keep({ language: book.language, choice, day: days.squadDayOf(ids), signs: [] });
      void wait();
    },
    goOn() {
      if (under === null || store.state().people.all.length === 0) return;
      if (under.language !== book.language) return chooseLanguage(under.language);
      begins(under.choice.listen);
      if (isHeard) void coach.fitEar('coach', coach.callWord());
      patch({ trouble: null });
      void wait();
    },
    end() {
      leaveBetween();
      if (under === null) return;
      void noteSigns();
      patch({ stage: 'over' });
      store.patch({ where: 'squadDay' });
    },
    leave() {
      hush();
      leaveBetween();
      const stage = store.state().squadDay?.stage;
      if (stage === 'over') {
        under = null;
        shelf.forget();
      }
      store.patch({ where: 'people', squadDay: under === null ? null : store.state().squadDay });
      freed();
    },
  };
}

/** An ear that has kept what hands replied before anybody listened to it, for the first who does. */
function keepingHands(ear: Ear): Ear & { drop: Cancel } {
  const kept: Hearing[] = [];
  let leave: Cancel = ear.listen((hearing) => {
    if (hearing.type === 'reply') kept.push(hearing);
  });
  ear.attend('idle');
  return {
    attend: (prompt) => ear.attend(prompt),
    drop: () => leave(),
    listen(listener) {
      leave();
      leave = () => undefined;
      const cancel = ear.listen(listener);
      for (const hearing of kept.splice(0)) listener(hearing);
      return cancel;
    },
  };
}
