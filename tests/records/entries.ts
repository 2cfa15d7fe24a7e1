import type { Area, AreaOutcome } from '../../src/domain/areas';
import { DEFAULT_SETTINGS, type Entry, type EntryOf } from '../../src/domain/log';

const source = { by: 'voice', text: 'knees forward', confidence: 0.9 } as const;

/** The first entry of a session. */
export const started = (
  session: string,
  startedAt = '2026-05-01T09:00:00+02:00',
  person?: string,
): Entry => ({
  id: `${session}:rack:0`,
  atSeconds: 0,
  type: 'started',
  routine: 'hinge',
  language: 'en',
  way: 'hands-on',
  startedAt,
  settings: DEFAULT_SETTINGS,
  ...(person !== undefined && { person }),
});

/** A finding, numbered within its session. */
export const finding = (session: string, number: number): EntryOf<'finding'> => ({
  id: `${session}:rack:${String(number)}`,
  atSeconds: number * 10,
  type: 'finding',
  prompt: 'check/hinge-unloaded',
  check: 'hinge-unloaded',
  drill: null,
  load: null,
  source,
  side: null,
  result: 'lost',
  faults: ['knees-forward'],
  angleDegrees: null,
  tool: null,
  pain: null,
});

export const ended = (session: string, number: number): Entry => ({
  id: `${session}:rack:${String(number)}`,
  atSeconds: number * 10,
  type: 'ended',
  reason: 'completed',
});

export const outcome = (
  session: string,
  number: number,
  area: Area,
  what: AreaOutcome = 'ready',
): Entry => ({
  id: `${session}:rack:${String(number)}`,
  atSeconds: number * 10,
  type: 'outcome',
  area,
  outcome: what,
  rung: 2,
});

/** A kind of pain, asked for after a finding. */
export const painKind = (session: string, number: number, kind: 'known' | 'sharp'): Entry => ({
  id: `${session}:rack:${String(number)}`,
  atSeconds: number * 10,
  type: 'pain-kind',
  kind,
  source,
});
