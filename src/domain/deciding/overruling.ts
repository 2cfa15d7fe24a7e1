import type { EntryOf } from '../log';
import { leaveOut, maySlot, record, slotsOf, trialOf } from './checking';
import {
  barOf,
  drillOf,
  openClimb,
  rungFrom,
  rungOf,
  standOn,
  visit,
  type Stand,
} from './climbing';
import { because, mayLoad, MOST_TRIES, nameOf, type Course, type Reason } from './course';
import { nameAt, placeOf, type Place } from './place';

type CheckPlace = Extract<Place, { do: 'check' }>;
type SetPlace = Extract<Place, { do: 'set' }>;

/** The rule of a word of the coach that cannot be done. */
export const REFUSED = '9.8';

/** Rule 9.8: it cannot be done; the step is repeated and the reason said. */
const refuse = (key: string, values: Reason['values'] = {}): Reason =>
  because(REFUSED, `cannot-${key}`, values, { by: 'coach' });

const coach = (rule: string, key: string, values: Reason['values'] = {}): Reason =>
  because(rule, `coach-${key}`, values, { by: 'coach' });

/** What the coach's word does to the check or set at hand (chapter 9). */
export function overrule(
  course: Course,
  { command, target }: Pick<EntryOf<'overrule'>, 'command' | 'target'>,
): Reason {
  const place = placeOf(course);
  if (course.pain !== null) return refuse('pain-first');
  if (place === null) return course.reason;
  if (command === 'go-to') return goTo(course, place, target ?? '');
  return place.do === 'check'
    ? overruleCheck(course, place, command)
    : overruleSet(course, place, command);
}

function overruleCheck(
  course: Course,
  place: CheckPlace,
  command: Exclude<EntryOf<'overrule'>['command'], 'go-to'>,
): Reason {
  const round = place.retest ? place.at.retests : place.at.checks;
  const check = nameAt(course, place);
  const trial = trialOf(round, place.slot);
  switch (command) {
    case 'again': {
      if (trial.tries + 1 >= MOST_TRIES) return refuse('try', { check, tries: MOST_TRIES });
      record(round, place.slot, trial.answer);
      return coach('9.1', 'again', { name: check });
    }
    case 'skip':
    case 'next': {
      if (trial.answer === null) {
        const { retest, slot, at } = place;
        const answers = [{ slot, answer: leaveOut(round, slot) }];
        course.counted.push({
          as: 'check',
          area: at.area,
          pain: null,
          retest,
          asked: null,
          answers,
        });
      }
      course.trail.push(place.slot);
      course.focus = null;
      return coach('9.2', 'skip-check', { check });
    }
    case 'back': {
      const before = course.trail.at(-1);
      if (before === undefined) return refuse('back-check', { check });
      const name = course.book.checks[before.check]?.name ?? before.check;
      if (!maySlot(course, place.at, before, place.retest)) return refuse('loaded', { name });
      if (trialOf(round, before).tries >= MOST_TRIES) {
        return refuse('try', { check: name, tries: MOST_TRIES });
      }
      course.trail.pop();
      course.focus = before;
      return coach('9.4', 'back', { name });
    }
    case 'lighter':
    case 'heavier':
      return refuse('load-check', { check });
  }
}

function overruleSet(
  course: Course,
  place: SetPlace,
  command: Exclude<EntryOf<'overrule'>['command'], 'go-to'>,
): Reason {
  const { at, climb } = place;
  const here = climb.visit;
  const drill = drillOf(course, here.drill);
  switch (command) {
    case 'again': {
      const { ladderSets: sets } = course.settings;
      // The set at hand counts as done, and the one more must still fit.
      if (climb.sets + 2 > sets) return refuse('set', { sets });
      climb.sets += 1;
      return coach('9.1', 'again', { name: drill.name });
    }
    case 'skip':
    case 'next':
      return leaveOutDrill(course, place);
    case 'back': {
      const lower = rungFrom(course, at, climb.rung - 1, -1);
      if (lower === null) return refuse('back-rung', { drill: drill.name });
      visit(climb, lower);
      return coach('9.4', 'back', { name: drillOf(course, lower.drill).name });
    }
    case 'lighter': {
      if (here.load === 'heavier') {
        here.load = 'as-written';
        return coach('9.5', 'as-written', { drill: drill.name });
      }
      const { easier } = drill;
      if (easier === null || here.load !== 'as-written') {
        return refuse('lighter', { drill: drill.name });
      }
      here.load = easier.load;
      here.eased = true;
      return coach('9.5', 'lighter', { drill: drill.name });
    }
    case 'heavier':
      return heavier(course, place);
  }
}

function heavier(course: Course, { at, climb }: SetPlace): Reason {
  const here = climb.visit;
  const drill = drillOf(course, here.drill);
  if (at.hurt || !mayLoad(course, at)) {
    return refuse('heavier-after-pain', { area: nameOf(course.book, at.area) });
  }
  if (course.way === 'alone') return refuse('heavier-alone', { drill: drill.name });
  if (here.load !== 'as-written' && here.load !== 'heavier') {
    here.load = 'as-written';
    here.eased = false;
    return coach('9.6', 'as-written', { drill: drill.name });
  }
  if (drill.heavier === null || here.load === 'heavier') {
    return refuse('heavier', { drill: drill.name });
  }
  here.load = 'heavier';
  return coach('9.6', 'heavier', { drill: drill.name });
}

/** Rule 9.3: the drill at hand is left out: on to the next rung, or the ladder is over. */
export function leaveOutDrill(course: Course, { at, climb }: SetPlace): Reason {
  // Homework leaves the area for another day, from a rung that was stepped back to as well (15.3).
  const next = at.task === null ? rungFrom(course, at, climb.rung + 1, 1) : null;
  if (next === null) {
    climb.ended = 'coach';
    const over = course.homework === null ? 'ladder-over' : 'homework-left';
    return coach('9.3', over, { area: nameOf(course.book, at.area) });
  }
  visit(climb, next);
  return coach('9.3', 'skip-drill', { drill: drillOf(course, next.drill).name });
}

function goTo(course: Course, place: Place, target: string): Reason {
  const { book } = course;
  const check = book.checks[target];
  const drill = book.drills[target];
  const name = check?.name ?? drill?.name;
  if (name === undefined) return refuse('find');
  const area = check?.area ?? drill?.area;
  const isNoHomework = course.homework !== null && check !== undefined;
  if (isNoHomework) return refuse('handover', { name });
  if (area !== place.at.area) {
    return refuse('other-area', { name, area: nameOf(book, place.at.area) });
  }
  if (check !== undefined) return goToCheck(course, place, target, name);
  const rung = rungOf(course, place.at, target);
  if (rung === 0) return refuse('find');
  // What was ticked as missing may have been found: the coach sees the room.
  const bar = barOf(course, place.at, target);
  if (bar === 'pain') return refuse('loaded', { name });
  if (bar === 'alone' || bar === 'handover') return refuse(bar, { name });
  const stand = standOn(course, place.at, rung, target);
  if (place.do === 'set') visit(place.climb, stand);
  else if (!toLadder(course, place, stand)) return refuse('drill-now', { name });
  return coach('9.7', 'go-to', { name });
}

/** From a check straight onto the area's ladder, where it lies next to it in the routine. */
function toLadder(course: Course, { at, retest }: CheckPlace, to: Stand) {
  const { items } = course.routine;
  const ladder = items.findIndex((item) => item.do === 'ladder' && item.area === at.area);
  const between = items.slice(Math.min(ladder, course.item), Math.max(ladder, course.item) + 1);
  const isFull = at.timeUp || (at.climb?.sets ?? 0) >= course.settings.ladderSets;
  if (ladder < 0 || isFull || between.some(({ area }) => area !== at.area)) return false;
  if (at.climb === null) at.climb = openClimb(to);
  else visit(at.climb, to);
  at.climb.ended = null;
  if (retest) {
    at.retests.clear();
    course.counted = course.counted.filter(
      (one) => one.as !== 'check' || !one.retest || one.area !== at.area,
    );
  }
  course.item = ladder;
  course.focus = null;
  course.trail = [];
  return true;
}

function goToCheck(course: Course, place: Place, target: string, name: string): Reason {
  const script = course.book.checks[target];
  if (place.do === 'set' || script === undefined) return refuse('check-now', { name });
  const round = place.retest ? place.at.retests : place.at.checks;
  const slots = slotsOf(script);
  const slot = slots.find((one) => trialOf(round, one).answer === null) ?? slots[0];
  if (slot === undefined) return refuse('find');
  if (!maySlot(course, place.at, slot, place.retest)) return refuse('loaded', { name });
  if (trialOf(round, slot).tries >= MOST_TRIES) {
    return refuse('try', { check: name, tries: MOST_TRIES });
  }
  course.focus = slot;
  return coach('9.7', 'go-to', { name });
}
