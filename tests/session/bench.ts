/** One session on a virtual clock with ports that a test can lead by the hand. */
import { createActor } from 'xstate';
import { createVirtualClock } from '../../src/cli/virtualClock';
import { secondsOf } from '../../src/cli/durations';
import { bookOf } from '../../src/cli/verb';
import { NO_REPLY, type Reply } from '../../src/domain/hearing/reply';
import { DEFAULT_SETTINGS, type Entry, type SessionSettings } from '../../src/domain/log';
import type { CueBook, PromptId } from '../../src/domain/script';
import type { Hearing, Level, Ports, RecordProblem, SessionEvent, ToneName } from '../../src/ports';
import { memoryRecords } from '../../src/records/memoryRecords';
import { sessionMachine } from '../../src/session/sessionMachine';
import { createMaking } from './making';

export const book: CueBook = bookOf();
export const STARTED = Date.UTC(2026, 0, 5, 9);

export interface BenchOptions {
  routine?: string;
  log?: Entry[];
  /** When the session (or its second half) begins, milliseconds. */
  atMilliseconds?: number;
  settings?: SessionSettings;
  /** What the store says of an entry; `silent` never answers. */
  store?: (entry: Entry) => RecordProblem | null | 'silent';
  /** `startless` tells that it began only when it ends. */
  voice?: 'speaks' | 'broken' | 'startless';
  /** How much longer than usual the voice takes for a line. */
  stretch?: number;
  /** How long the voice takes to make a line before it sounds; no time where left out. */
  makingSeconds?: number;
  utcOffsetMinutes?: number;
  callWord?: string;
  /** A phone that was set as a level. */
  level?: Level | undefined;
  /** On a squad day others are still to come. */
  othersWait?: boolean;
  /** What stands between the session and its ear and clock; nothing where left out. */
  around?: (outside: Pick<Ports, 'ear' | 'clock'>) => Pick<Ports, 'ear' | 'clock'>;
  /** What the session before left open; `idle` where left out. */
  attended?: PromptId;
}

export type Bench = ReturnType<typeof openBench>;

export function openBench(options: BenchOptions = {}) {
  const clock = createVirtualClock(options.atMilliseconds ?? STARTED);
  const records = memoryRecords();
  const events: (SessionEvent & { atSeconds: number })[] = [];
  const entries: Entry[] = [];
  const tones: ToneName[] = [];
  const adjusted: string[] = [];
  const ducks: { isDucked: boolean; atMilliseconds: number }[] = [];
  const counts: { text: string | null; atMilliseconds: number; isCut: boolean }[] = [];
  const making = createMaking(clock, options.makingSeconds ?? 0);
  let prompt: PromptId = options.attended ?? 'idle';
  let sounding: string | null = null;
  let listener: (hearing: Hearing) => void = () => undefined;
  const ports: Ports = {
    clock,
    ear: {
      attend: (next) => {
        prompt = next;
      },
      listen(onHearing) {
        listener = onHearing;
        return () => {
          listener = () => undefined;
        };
      },
    },
    voice: {
      say(text, { started, ended }) {
        if (options.voice === 'broken') {
          const timer = clock.setTimeout(() => ended('failed'), 1);
          return () => clock.clearTimeout(timer);
        }
        let timer: unknown;
        const forget = making.whenMade(text, () => {
          sounding = text;
          if (options.voice !== 'startless') started?.();
          timer = clock.setTimeout(
            () => {
              sounding = null;
              started?.();
              ended('spoken');
            },
            secondsOf(text) * (options.stretch ?? 1) * 1000,
          );
        });
        return () => {
          forget();
          clock.clearTimeout(timer);
          if (sounding === text) sounding = null;
        };
      },
      prepare: making.prepare,
      adjust: (change) => adjusted.push(change),
      duck: (isDucked) => ducks.push({ isDucked, atMilliseconds: clock.now() }),
      ...(options.stretch !== undefined && { stretch: () => options.stretch ?? 1 }),
    },
    tones: { play: (name) => tones.push(name), hush: () => undefined },
    beats: {
      place(text, atMilliseconds) {
        const count = { text, atMilliseconds, isCut: false };
        counts.push(count);
        return () => {
          count.isCut = true;
        };
      },
      prepare: () => undefined,
    },
    records: {
      ...records,
      append(entry, done) {
        const problem = options.store?.(entry) ?? null;
        if (problem === 'silent') return;
        if (problem !== null) return done(problem);
        if (!entries.some(({ id }) => id === entry.id)) entries.push(entry);
        records.append(entry, done);
      },
    },
    screen: { show: (event) => events.push(event) },
    level: options.level,
  };
  const actor = createActor(sessionMachine, {
    clock,
    input: {
      book,
      ports: { ...ports, ...options.around?.(ports) },
      secondsOf,
      session: 'test',
      device: 'bench',
      routine: options.routine ?? 'hinge',
      way: 'hands-on',
      settings: options.settings ?? DEFAULT_SETTINGS,
      log: options.log ?? [],
      utcOffsetMinutes: options.utcOffsetMinutes,
      callWord: options.callWord,
      othersWait: options.othersWait,
    },
  });
  actor.start();

  const bench = {
    actor,
    clock,
    events,
    entries,
    tones,
    adjusted,
    counts,
    ducks,
    waits: making.waits,
    prompt: () => prompt,
    sounding: () => sounding,
    isOver: () => actor.getSnapshot().status !== 'active',
    /** The names of the session's states, outermost first. */
    state: () => {
      const { value, children } = actor.getSnapshot();
      const inside = children.attempt?.getSnapshot() as { value?: unknown } | undefined;
      return JSON.stringify([value, inside?.value ?? null]);
    },
    hear: (text: string, confidence = 1) => {
      listener({ type: 'words', text, confidence, prompt });
    },
    ear: (hearing: Hearing) => listener(hearing),
    hand: (reply: Partial<Reply>) => {
      listener({ type: 'reply', reply: { ...NO_REPLY, ...reply }, prompt });
    },
    seconds: (seconds: number) => clock.advance(seconds * 1000),
    /** Lets time pass until that question opens. */
    untilAsked: (wanted?: PromptId) => {
      const from = events.length;
      clock.runUntil(
        () =>
          bench.isOver() ||
          events
            .slice(from)
            .some(
              ({ type, ...event }) =>
                type === 'listen' && 'prompt' in event && event.prompt === (wanted ?? event.prompt),
            ),
        3600 * 1000 * 48,
      );
    },
    of: <T extends SessionEvent['type']>(type: T) =>
      events.filter((event): event is Extract<(typeof events)[number], { type: T }> => {
        return event.type === type;
      }),
    cues: () => bench.of('cue').map(({ text }) => text),
    logged: <T extends Entry['type']>(type: T) =>
      entries.filter((entry): entry is Extract<Entry, { type: T }> => entry.type === type),
  };
  return bench;
}
