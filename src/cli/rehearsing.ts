import { createActor } from 'xstate';
import type { Athlete } from '../domain/athlete';
import type { AngleTool } from '../domain/findings';
import type { HomeworkDay } from '../domain/handover/progressDay';
import type { Entry, SessionSettings } from '../domain/log';
import type { CueBook, DrillId, EquipmentId, RoutineId } from '../domain/script';
import type { Ports } from '../ports';
import { memoryRecords } from '../records/memoryRecords';
import { sessionMachine } from '../session/sessionMachine';
import type { Said } from '../mixing/spoken';
import { rehearsalHall, type Hall, type TimedEvent } from './rehearsalHall';

export interface Rehearsal extends Hall {
  book: CueBook;
  routine: RoutineId;
  settings: SessionSettings;
  athlete?: Athlete | undefined;
  angleTool?: AngleTool | undefined;
  missing?: EquipmentId[] | undefined;
  allowedAlone?: DrillId[] | undefined;
  /** What was handed over, and what of it is done; none where left out. */
  homework?: HomeworkDay | undefined;
  callWord?: string | undefined;
  /** Minutes that the clock on the wall is east of UTC. Default 0. */
  utcOffsetMinutes?: number | undefined;
  /** Names the session in entry ids. Default `rehearsal`. */
  session?: string | undefined;
  /** Whose session it is, by id; nobody named where left out. */
  person?: string | undefined;
}

export interface Rehearsed {
  timeline: TimedEvent[];
  said: Said[];
  entries: Entry[];
}

/**
 * Runs a whole session on a virtual clock: the same machines, the same understanding, the same
 * record as in the app, without waiting.
 */
export function rehearse(rehearsal: Rehearsal): Rehearsed {
  const { session = 'rehearsal' } = rehearsal;
  const hall = rehearsalHall(rehearsal);
  const { clock, partner } = hall;
  const entries: Entry[] = [];
  const records = memoryRecords();
  const ports: Ports = {
    ...hall.ports,
    records: {
      ...records,
      append(entry, done) {
        entries.push(entry);
        records.append(entry, done);
      },
    },
  };
  const actor = createActor(sessionMachine, {
    clock,
    input: {
      book: rehearsal.book,
      ports,
      secondsOf: rehearsal.secondsOf,
      session,
      device: 'cli',
      routine: rehearsal.routine,
      way: rehearsal.way,
      settings: rehearsal.settings,
      person: rehearsal.person,
      athlete: rehearsal.athlete,
      angleTool: rehearsal.angleTool,
      missing: rehearsal.missing,
      allowedAlone: rehearsal.allowedAlone,
      homework: rehearsal.homework,
      utcOffsetMinutes: rehearsal.utcOffsetMinutes,
      callWord: rehearsal.callWord,
      log: [],
    },
  });
  partner.onUsedUp(() => actor.send({ type: 'REPLIES_ENDED' }));
  actor.start();
  hall.runUntil(
    () => actor.getSnapshot().status !== 'active',
    () => actor.send({ type: 'REPLIES_ENDED' }),
  );
  actor.stop();
  const { timeline, said } = hall;
  return { timeline, said, entries: [...new Map(entries.map((each) => [each.id, each])).values()] };
}
