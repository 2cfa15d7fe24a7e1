import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { areaStates, live, nextStep, undoable } from '../../../src/domain/deciding/deciding';
import type { Decision, Step } from '../../../src/domain/deciding/step';
import type { Entry, EntryOf } from '../../../src/domain/log';
import { book as small } from './book';
import { brief } from './logging';
import { Walk } from './walking';

const BOOKS = [
  { of: 'a small book', its: small },
  {
    of: 'the shipped scripts',
    its: loadBook(fileURLToPath(new URL('../../../scripts-cues', import.meta.url)), 'en'),
  },
];
/** The book that is walked. */
let book = small;
const SESSIONS = 5000;
/** Sessions whose every prefix is decided anew: slower, so fewer. */
const EVERY = 8;
/** Undo costs one more decision for each entry. */
const UNDO_EVERY = 2;
/** The longest session by rules alone stays under this, in entries. */
const MOST_ENTRIES = 260;

type Attempt = Extract<Step, { do: 'check' | 'set' }>;
const isAttempt = (step: Step): step is Attempt => step.do === 'check' || step.do === 'set';
const isLoaded = (step: Attempt): boolean =>
  (step.do === 'check' ? book.checks[step.check] : book.drills[step.drill])?.loaded === true;

interface Pain {
  finding: EntryOf<'finding'>;
  area: string;
  number: number | 'unanswered' | null;
  kind: string | null;
}

/** Pain as the log tells it, by its own reading of it: findings with the details after them. */
function painsOf(log: Entry[]): Pain[] {
  const pains: Pain[] = [];
  let current: Pain | null = null;
  for (const entry of log) {
    if (entry.type === 'finding') {
      const script = book.checks[entry.check ?? ''] ?? book.drills[entry.drill ?? ''];
      current = { finding: entry, area: script?.area ?? '', number: entry.pain, kind: null };
      pains.push(current);
    } else if (entry.type === 'pain-number' && current !== null) current.number ??= entry.pain;
    else if (entry.type === 'pain-kind' && current !== null) current.kind ??= entry.kind;
  }
  return pains.filter(({ finding, number, kind }) => {
    return finding.result === 'pain' || (number !== null && number !== 0) || kind !== null;
  });
}

const isAboveLine = ({ number }: Pain): boolean =>
  number === 'unanswered' || (number !== null && number > 5);
const isNew = ({ kind }: Pain): boolean => kind !== null && kind !== 'known';
const isTooMuch = (pain: Pain): boolean =>
  isAboveLine(pain) || isNew(pain) || (typeof pain.number === 'number' && pain.number > 2);

/** Every rule of pain that a step could break. */
function brokenByPain(step: Step, log: Entry[]): string | null {
  if (!isAttempt(step)) return null;
  const pains = painsOf(log);
  const here = pains.filter(({ area }) => area === step.area);
  if (here.some(isAboveLine)) return 'goes on in an area that pain referred';
  if (here.some((pain) => pain.finding.check !== null && isNew(pain) && pain.number !== null)) {
    return 'goes on in an area with new pain in a check';
  }
  if (isLoaded(step)) {
    if (here.some(isTooMuch)) return 'is loaded after pain in the area';
    const joined = pains.filter(({ area }) => area === 'squat' || area === 'hinge');
    if (step.area !== 'overhead' && joined.some(isAboveLine)) {
      return 'is loaded after squat or hinge pain above the line';
    }
  }
  if (step.do === 'check') return null;
  const over = here.some(
    (pain) => isNew(pain) && pain.finding.drill !== null && rungOfPain(pain) === step.rung,
  );
  if (over) return 'does a rung again that new pain ended';
  const own = book.ladders[step.area]?.rungs[step.rung - 1]?.drill ?? '';
  if (own === step.drill || book.drills[own]?.loaded !== true) return null;
  const tooHigh = here.some(
    (pain) =>
      isTooMuch(pain) &&
      (pain.finding.check !== null || isNew(pain) || rungOfPain(pain) <= step.rung),
  );
  return tooHigh && !isLoaded(step) ? 'stands in for load where pain forbids that' : null;
}

const rungOfPain = ({ finding, area }: Pain): number => {
  const rungs = Object.values(book.ladders).find((one) => one.area === area)?.rungs ?? [];
  const drill = finding.drill ?? '';
  return 1 + rungs.findIndex((one) => one.drill === drill || one.alternates?.includes(drill));
};

/** What a step could break of the room it is in, and of what was allowed alone. */
function brokenByRoom(step: Step, log: Entry[]): string | null {
  const started = log.find((entry) => entry.type === 'started');
  if (!isAttempt(step) || started === undefined) return null;
  const { way, missing = [], allowedAlone = [] } = started;
  const isThere = (id: string) => !missing.includes(id) || book.equipment[id]?.orElse !== undefined;
  const isWanted = (id: string) =>
    log.some((entry) => entry.type === 'overrule' && entry.target === id);
  if (step.do === 'check') {
    const { equipment = [], needsCoach } = book.checks[step.check] ?? {};
    if (isWanted(step.check)) return null;
    if (needsCoach && way === 'alone') return 'needs a coach, alone';
    const isMissing = equipment.length > 0 && !equipment.some(isThere);
    return isMissing ? 'needs what is not here' : null;
  }
  const { equipment = [], aloneOnlyIfAllowed } = book.drills[step.drill] ?? {};
  if (way === 'alone') {
    if (step.load === 'heavier') return 'is heavier, alone';
    if (aloneOnlyIfAllowed && !allowedAlone.includes(step.drill)) return 'is not allowed alone';
  }
  if (!isWanted(step.drill) && !equipment.every(isThere)) return 'needs what is not here';
  return null;
}

/**
 * An area is only ready where the last word on every side of every check was `held`. What is left
 * out when it is tested again keeps the answer of the first time.
 */
function brokenByReadiness(log: Entry[]): string | null {
  for (const { area, outcome } of areaStates(book, log)) {
    if (outcome !== 'ready') continue;
    const climbed = log.findIndex(
      (entry) => entry.type === 'finding' && book.drills[entry.drill ?? '']?.area === area,
    );
    const isLeftOut = (entry: EntryOf<'finding'>) =>
      entry.result === 'not-tested' && climbed >= 0 && log.indexOf(entry) > climbed;
    for (const check of Object.values(book.checks).filter((one) => one.area === area)) {
      for (const side of check.sided ? ['left', 'right'] : [null]) {
        const said = log.findLast(
          (entry) =>
            entry.type === 'finding' &&
            entry.check === check.id &&
            !isLeftOut(entry) &&
            (side === null || entry.side === side || entry.side === 'both' || entry.side === null),
        );
        if (said?.type !== 'finding' || said.result !== 'held') return `${check.id} did not hold`;
      }
    }
  }
  return null;
}

/** The sets of an area's ladder that were answered in full: one side said twice is a correction. */
function setsOf(log: Entry[], area: string): number {
  let sets = 0;
  let half: { drill: string; sides: Set<string> } = { drill: '', sides: new Set() };
  for (const entry of log) {
    const drill = entry.type === 'finding' ? book.drills[entry.drill ?? ''] : undefined;
    if (entry.type !== 'finding' || drill?.area !== area) continue;
    if (entry.result === 'not-tested' || entry.result === 'pain') continue;
    if (half.drill !== drill.id) half = { drill: drill.id, sides: new Set() };
    if (entry.side === 'both') half.sides.add('left').add('right');
    else half.sides.add(entry.side ?? 'whole');
    if (half.sides.size < (drill.sided ? 2 : 1)) continue;
    half.sides.clear();
    sets += 1;
  }
  return sets;
}

/** Decides every prefix of a log anew, and looks at the way it took. */
function lookBack(seed: number, entries: Entry[], byRulesAlone: boolean): void {
  const log = live(entries);
  const active: Record<string, number> = {};
  const backs: Record<number, number> = {};
  const visits: Record<string, number> = {};
  let before: Decision | null = null;
  const idle = new Set<'paused' | 'halted'>();
  log.forEach((entry, at) => {
    const now = nextStep(book, log.slice(0, at + 1));
    const place = before?.step;
    const dt = entry.atSeconds - (log[at - 1]?.atSeconds ?? 0);
    if (before?.area && idle.size === 0) active[before.area] = (active[before.area] ?? 0) + dt;
    if (entry.type === 'paused' || entry.type === 'halted') idle.add(entry.type);
    if (entry.type === 'resumed') idle.delete('paused');
    if (entry.type === 'end-answered') idle.delete('halted');
    const { step } = now;
    // A refused word chooses nothing: the step at hand is repeated.
    const isNewChoice =
      entry.type === 'finding' || (entry.type === 'overrule' && now.rule !== '9.8');
    const asks = step.do === 'set' || (step.do === 'check' && !step.retest);
    if (isNewChoice && asks && isAttempt(step)) {
      expect(active[step.area] ?? 0, `seed ${seed}: minutes of ${step.area}`).toBeLessThan(25 * 60);
    }
    if (byRulesAlone && place?.do === 'set' && step.do === 'set' && place.area === step.area) {
      if (step.rung < place.rung) {
        const key = place.rung * 10 + ['overhead', 'squat', 'hinge'].indexOf(place.area);
        backs[key] = (backs[key] ?? 0) + 1;
        expect(backs[key], `seed ${seed}: steps back from rung ${place.rung}`).toBe(1);
      }
    }
    if (byRulesAlone && step.do === 'set') {
      const isVisit = place?.do !== 'set' || place.area !== step.area || place.rung !== step.rung;
      const key = `${step.area} ${step.rung}`;
      const rungs = book.ladders[step.area]?.rungs.length ?? 0;
      if (isVisit && place?.do !== 'ask') visits[key] = (visits[key] ?? 0) + 1;
      // Once from below or by entry, once more after going back from it, once back from each above.
      const most = 2 + rungs - step.rung;
      expect(visits[key] ?? 0, `seed ${seed}: visits of ${key}`).toBeLessThanOrEqual(most);
    }
    before = now;
  });
}

const isSame = (one: Decision, other: Decision): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

/** Ids of the rules as they are written down. */
const RULES = [
  ...readFileSync(
    new URL('../../../src/domain/deciding/RULES.md', import.meta.url),
    'utf8',
  ).matchAll(/^- \*\*([\d.]+)\*\*/gm),
].map(([, id]) => id);

function walk(seed: number, rules: Set<string>, drills: Set<string>): string {
  const session = new Walk(seed, book);
  const { told, habits } = session;
  const note = (what: string) => `seed ${seed}: ${what}`;
  const most = habits.coach === 0 ? MOST_ENTRIES : 4 * MOST_ENTRIES;
  let before = told.decision;
  while (before.step.do !== 'end') {
    if (told.entries.length > most) throw new Error(note('does not end'));
    const quiet = told.entries.length;
    session.rest();
    const length = told.entries.length;
    if (length > quiet && !isSame(told.decision, before)) throw new Error(note('silence decided'));
    session.tell();
    const after = told.decision;
    rules.add(after.rule);
    if (after.step.do === 'set') drills.add(after.step.drill);
    const log = live(told.entries);
    const broken = brokenByPain(after.step, log) ?? brokenByRoom(after.step, log);
    if (broken !== null) throw new Error(note(`${brief(after.step)} ${broken}`));
    if (after.step.do === 'set' && setsOf(log, after.step.area) >= 12) {
      throw new Error(note(`${brief(after.step)} after twelve sets`));
    }
    if (after.rule === '9.8' && isAttempt(after.step) && brief(after.step) !== brief(before.step)) {
      throw new Error(note('a refused word moved the session'));
    }
    const last = seed % UNDO_EVERY === 0 ? undoable(book, told.entries) : null;
    if (
      last !== null &&
      last.id === told.entries[length]?.id &&
      told.entries.length === length + 1
    ) {
      const source = told.source();
      const id = 's:d:undo';
      const { atSeconds } = told.entries.at(-1) as Entry;
      const undone: Entry = { type: 'undone', entry: last.id, source, id, atSeconds };
      const restored = nextStep(book, [...told.entries, undone]);
      if (!isSame(restored, before)) {
        throw new Error(note('undo does not bring back the decision before'));
      }
    }
    if (session.chance(habits.coach / 5)) session.undo();
    before = told.decision;
  }
  const broken = brokenByReadiness(live(told.entries));
  if (broken !== null) throw new Error(note(`is ready although ${broken}`));
  return before.step.reason;
}

describe.each(BOOKS)(`${SESSIONS} random sessions of $of`, { timeout: 120_000 }, ({ its }) => {
  beforeAll(() => {
    book = its;
  });

  it('keep every rule of pain, caps, undo and silence, and all end', () => {
    const ends: Record<string, number> = {};
    const rules = new Set<string>();
    const drills = new Set<string>();
    for (let seed = 1; seed <= SESSIONS; seed += 1) {
      const end = walk(seed, rules, drills);
      ends[end] = (ends[end] ?? 0) + 1;
    }
    // The walks must reach every way of ending, or they prove little.
    expect(Object.keys(ends).sort()).toEqual(['completed', 'red-flag', 'stopped']);
    for (const count of Object.values(ends)) expect(count).toBeGreaterThan(100);
    expect([...rules].filter((rule) => !RULES.includes(rule))).toEqual([]);
    expect(rules.size).toBeGreaterThan(40);
    expect(drills.size).toBe(Object.keys(book.drills).length);
  });

  it('decided anew at every entry, keep to their minutes and step back from a rung once', () => {
    for (let seed = 1; seed <= SESSIONS; seed += EVERY) {
      const session = new Walk(seed, book);
      const { told, habits } = session;
      while (told.step.do !== 'end') {
        session.rest();
        session.tell();
      }
      lookBack(seed, told.entries, habits.coach === 0);
    }
  });

  it('decide the same when they are replayed, with and without the silence in them', () => {
    for (let seed = 1; seed <= SESSIONS; seed += EVERY) {
      const session = new Walk(seed, book);
      const { told } = session;
      for (let turn = 0; turn < 15 && told.step.do !== 'end'; turn += 1) {
        session.rest();
        session.tell();
      }
      const stored: Entry[] = JSON.parse(JSON.stringify(told.entries));
      expect(nextStep(book, stored)).toEqual(told.decision);
      const spoken = stored.filter(({ type }) => type !== 'asked' && type !== 'heard');
      expect(nextStep(book, spoken)).toEqual(told.decision);
    }
  });

  it('stay ended, whatever comes after', () => {
    for (let seed = 1; seed <= SESSIONS; seed += EVERY) {
      const session = new Walk(seed, book);
      const { told } = session;
      for (let turn = 0; turn < session.random() * 12; turn += 1) session.tell();
      if (session.chance(0.5)) told.redFlag('breathless');
      else told.halt().end(true);
      const ended = told.decision;
      expect(ended.step.do).toBe('end');
      told.coach('again').coach('go-to', 'deadlift').end(false).resume();
      session.undo();
      told.number(0).kind('known');
      expect(told.decision.step).toEqual(ended.step);
    }
  });
});
