import type { SaidFinding } from '../../src/domain/deciding/corrected';
import { DEFAULT_SETTINGS, type EntryOf } from '../../src/domain/log';
import type { Visit, VisitRecord } from '../../src/screens/finished/state';
import type { SeatState } from '../../src/screens/seat';
import { PEOPLE_STATES, VISIT } from './peopleStates';
import { STATES } from './states';

const said = (
  number: number,
  prompt: string,
  first: Partial<SaidFinding['first']>,
): SaidFinding => {
  const [kind, id = ''] = prompt.split('/');
  const all: SaidFinding['first'] = {
    ...{ side: null, result: 'held', faults: [], angleDegrees: null, tool: null },
    ...{ pain: null, painKind: null, load: kind === 'set' ? 'as-written' : null },
    ...first,
  };
  const { side, result, faults, angleDegrees, tool, load, pain } = all;
  const entry: EntryOf<'finding'> = {
    ...{ side, result, faults, angleDegrees, tool, load },
    ...{ id: `s2:d:${number}`, atSeconds: number, type: 'finding', prompt },
    ...{ check: kind === 'check' ? id : null, drill: kind === 'set' ? id : null },
    source: { by: 'voice', text: 'said', confidence: 1 },
    pain: pain === 'unanswered' ? null : pain,
  };
  return { finding: entry, of: null, first: all, corrections: [] };
};

/** Put right once: it was lost, and counts as short. */
export const correctedOnce = (one: SaidFinding): SaidFinding => {
  const { prompt, check, drill, source } = one.finding;
  return {
    ...one,
    corrections: [
      {
        ...{ id: 's2:later:9', atSeconds: 90_000, type: 'corrected', entry: one.finding.id },
        ...{ of: one.of, prompt, check, drill, source, ...one.first },
        ...{ result: 'short', faults: [], correctedAt: '2031-03-02T10:00:00+01:00' },
      },
    ],
  };
};

export const LOST = said(1, 'check/hinge-unloaded', { result: 'lost', faults: ['knees-forward'] });
export const HURT = said(2, 'set/bell-hinge', { result: 'pain', pain: 4, painKind: 'known' });

const RECORD: VisitRecord = {
  said: [LOST, HURT],
  settings: DEFAULT_SETTINGS,
  angleTool: 'eye',
  unseen: [],
  isCutOff: false,
  notes: [],
};

/** A past visit with that of its record. */
export function visitWith(change: Partial<VisitRecord>, more: Partial<Visit> = {}): SeatState {
  if (VISIT.state !== 'here') throw new Error('No visit is there.');
  const record = { ...RECORD, ...change };
  return { ...PEOPLE_STATES['visit']!, visit: { ...VISIT, ...more, record } };
}

const note = (id: string, text: string) => ({
  ...{ id, session: 's2', person: 'marn', text, writtenAt: '2031-03-01T10:05:00+01:00' },
});

export const VISIT_STATES: Record<string, SeatState> = {
  'visit-record': visitWith({}),
  'visit-corrected': visitWith({
    said: [correctedOnce(LOST), HURT],
    unseen: [{ check: 'hinge-unloaded', side: null }],
  }),
  'visit-noted': visitWith({ notes: [note('n1', 'Slept badly.'), note('n2', 'Left heel.')] }),
  'visit-notes-unread': visitWith({ notes: null }),
  'visit-cut-off': visitWith({ isCutOff: true }),
  'visit-flagged': visitWith({}, { end: STATES['finished-red-flag']!.view.end! }),
};
