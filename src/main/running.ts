import type { ActorRefFrom } from 'xstate';
import type { Way } from '../domain/areas';
import type { HomeworkDay } from '../domain/handover/progressDay';
import {
  DEFAULT_SETTINGS,
  type EndReason,
  type Entry,
  type SessionSettings,
  type Words,
} from '../domain/log';
import type { DrillId, EquipmentId, RoutineId } from '../domain/script';
import { attachHeadset } from '../ear/hands';
import type { Cancel, Ear, SessionEvent } from '../ports';
import type { SeatState, SeatStore } from '../screens/seat';
import { viewOf, viewOfLog } from '../screens/view';
import type { sessionMachine } from '../session/sessionMachine';
import { RecordError } from '../records/problems';
import { playSound } from '../sounding/playing';
import { COACH_VOICE } from '../voice/voices';
import { interruptible, soundOf } from './interruptions';
import { musicUnder } from './musicUnder';
import { deviceName } from './names';
import type { LevelPlace } from './levelPlace';
import type { Parts } from './parts';
import type { PeoplePlace } from './people/peoplePlace';
import type { VisitPlace } from './people/visitPlace';
import { settling, type SettlingRecords } from './tabs/settling';
import type { RunsHere, TabsPlace } from './tabs/tabsPlace';
import { RehearsalPartner } from './rehearsalPartner';
import { stayAwake } from './wakefulness';
import { tellingWords } from './wordsShelf';

/** What runs a session comes behind the gate, which does not need it. */
export const loadSession = () => import('./sessionActor');

/** A session to be run at the seat. */
export interface ToRun {
  session: string;
  routine: RoutineId;
  /** Entries to go on with; empty begins anew. */
  log: Entry[];
  /** Default hands-on; a session that goes on keeps its own. */
  way?: Way | undefined;
  /** Equipment that is not in this gym. */
  missing?: EquipmentId[] | undefined;
  isRehearsal?: boolean;
  /** What was handed over, with the settings and what is allowed that go with it. */
  homework?: HomeworkDay | undefined;
  settings?: SessionSettings | undefined;
  allowedAlone?: DrillId[] | undefined;
  /** On a squad day others are still to come. */
  othersWait?: boolean;
  /** Told once it is over, instead of showing what it came to; `left`: for the next person. */
  over?: (how: EndReason | 'left') => void;
}

/** The one session that runs at the seat, or none. */
export interface Running {
  /** Runs this one instead of what runs; false where another is being started, or parts lack. */
  start(wanted: ToRun): Promise<boolean>;
  isStarting(): boolean;
  /** Ends what runs, without a word. */
  end(): void;
  /** Ends it once all of it is on record; null then, else why it runs on. */
  giveUp(): Promise<string | null>;
  runsHere(): RunsHere;
  /** Seconds since it started. */
  nowSeconds(): number;
}

const notYet = (why: string): string =>
  `What was said last is not on record yet, so the session stays where it is. ${why}`;

interface Run extends NonNullable<RunsHere> {
  records: SettlingRecords;
  actor: ActorRefFrom<typeof sessionMachine>;
  startedAtMilliseconds: number;
  partner: RehearsalPartner | null;
  sleepAgain: Cancel;
  detachHeadset: Cancel;
  leaveOutside: Cancel;
  /** What it came to is shown by whoever began it: a squad day, or homework. */
  endsElsewhere: boolean;
  reason: EndReason;
}

const joinHeadset = ({ hands }: Pick<Parts, 'hands'>): Cancel =>
  attachHeadset(hands, 'mediaSession' in navigator ? navigator.mediaSession : undefined);

/** Keeps the screen on, and the headset's buttons joined to the hands where the browser can. */
export function staysAt(parts: Pick<Parts, 'hands'>): Cancel {
  const cancels = [stayAwake(), joinHeadset(parts)];
  return () => cancels.forEach((cancel) => cancel());
}

export function createRunning({
  parts,
  store,
  level,
  listening,
  people,
  visits,
  chooseWords,
  notAllArrived,
  tabs,
}: {
  parts: Parts;
  store: SeatStore;
  level: Pick<LevelPlace, 'forSession' | 'leave'>;
  /** Everything that hears replies. */
  listening: Ear;
  people: Pick<PeoplePlace, 'forSession'>;
  visits: Pick<VisitPlace, 'look'>;
  chooseWords: (words: Words) => void;
  notAllArrived: () => void;
  /** Another tab may run a session. */
  tabs: Pick<TabsPlace, 'claim' | 'release'>;
}): Running {
  const { beats, book, clock, coach, ear, isHeard, records, tones, voice } = parts;
  const underMusic = musicUnder(parts.music, clock);
  let running: Run | null = null;
  let isStarting = false;

  function end() {
    running?.partner?.leave();
    running?.actor.stop();
    running?.sleepAgain();
    running?.detachHeadset();
    running?.leaveOutside();
    underMusic.leave();
    running = null;
  }

  async function start({ session, routine, log, isRehearsal = false, over, ...wanted }: ToRun) {
    if (isStarting) return false;
    isStarting = true;
    const [arrived, isMine] = await Promise.all([loadSession().catch(notAllArrived), tabs.claim()]);
    isStarting = false;
    if (arrived === undefined && running === null) tabs.release();
    if (arrived === undefined || !isMine) return false;
    end();
    const partner = isRehearsal ? createPartner() : null;
    const began = log.find((entry) => entry.type === 'started');
    const now = clock.now();
    const startedAtMilliseconds =
      began === undefined ? now : arrived.countsFrom(began.startedAt, log, now);
    // A coach's own words and call word are of the language that the ear hears.
    const ownCallWord = isHeard ? coach.callWord() : null;
    const callWord = began === undefined ? ownCallWord : (began.callWord ?? null);
    if (isHeard) void coach.fitEar(isRehearsal ? 'stranger' : 'coach', callWord);
    const way = began?.way ?? wanted.way ?? 'hands-on';
    const isHomework = (began?.homework ?? wanted.homework) !== undefined;
    const forSession = isRehearsal ? {} : people.forSession();
    parts.manner.speakFor(way, began?.person ?? forSession.person);
    const outside = interruptible({ ear: listening, clock, sound: soundOf(tones) }, (what) =>
      show({ type: 'trouble', what, say: null, atSeconds: nowSeconds() }),
    );
    const settled = settling(isRehearsal ? records : tellingWords(records, chooseWords));
    const actor = arrived.createSessionActor({
      book: isRehearsal || !isHeard ? book : coach.book(),
      secondsOf: parts.secondsOf,
      session,
      device: deviceName(),
      routine,
      way,
      settings:
        wanted.settings ??
        (isRehearsal ? DEFAULT_SETTINGS : { ...DEFAULT_SETTINGS, words: store.state().words }),
      missing: wanted.missing,
      allowedAlone: wanted.allowedAlone,
      homework: wanted.homework,
      othersWait: wanted.othersWait,
      ...forSession,
      ...(callWord !== null && !isRehearsal && { callWord }),
      utcOffsetMinutes: -new Date(clock.now()).getTimezoneOffset(),
      log,
      ports: {
        ...{ clock: outside.clock, ear: outside.ear, voice, tones, beats, screen: { show } },
        records: settled,
        // On a squad day it would be strapped to somebody else.
        ...(!isRehearsal && (over === undefined || isHomework) && level.forSession()),
      },
    });
    const run: Run = {
      ...{ session, routine, mayGoOnHere: !isRehearsal && over === undefined },
      ...{ actor, startedAtMilliseconds, partner, sleepAgain: stayAwake(), records: settled },
      detachHeadset: joinHeadset(parts),
      leaveOutside: outside.leave,
      endsElsewhere: over !== undefined,
      reason: 'stopped',
    };
    running = run;
    actor.subscribe({
      complete: () => {
        // The next time it is strapped on anew.
        if (isHomework) level.leave();
        over?.(actor.getSnapshot().matches('left') ? 'left' : run.reason);
      },
    });
    store.patch({ where: 'run', rehearsal: isRehearsal, isHomework, view: viewOfLog(log) });
    actor.start();
    return true;
  }

  function show(event: SessionEvent & { atSeconds: number }) {
    const change: Partial<SeatState> = { view: viewOf(store.state().view, event) };
    if (event.type === 'trouble' && event.what === 'no-voice') change.voice = 'none';
    if (event.type === 'end' && running !== null) ended(running, event.reason, change);
    store.patch(change);
    underMusic.show(event);
    if (event.type === 'listen') running?.partner?.asked(event.prompt);
  }

  function ended(run: Run, reason: EndReason, change: Partial<SeatState>) {
    run.reason = reason;
    run.sleepAgain();
    if (run.endsElsewhere) return;
    tabs.release();
    change.where = 'finished';
    void visits.look(run.session);
  }

  const nowSeconds = () =>
    running === null ? 0 : (clock.now() - running.startedAtMilliseconds) / 1000;

  const createPartner = () =>
    new RehearsalPartner({
      clock,
      make: (text) => parts.synthesis.make(text, COACH_VOICE, 'now'),
      feed: ({ samples, sampleRate }) => ear.feed(samples, sampleRate),
      play: (sound) => void playSound(tones.output(), sound, { volume: 1 }),
    });

  async function giveUp() {
    const run = running;
    if (run === null) return null;
    try {
      await run.records.settled();
    } catch (error) {
      return notYet(new RecordError(error).problem.say);
    }
    if (running === run) end();
    return null;
  }

  return {
    start,
    end,
    giveUp,
    runsHere() {
      if (running === null) return null;
      const { session, mayGoOnHere } = running;
      return { session, routine: running.routine, mayGoOnHere };
    },
    isStarting: () => isStarting,
    nowSeconds,
  };
}
