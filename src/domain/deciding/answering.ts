import type { Area } from '../areas';
import type { EntryOf } from '../log';
import type { CueBook } from '../script';
import { leaveOut, record, slotsSaid, trialOf } from './checking';
import { answerSet } from './climbing';
import {
  because,
  MOST_TRIES,
  nameOf,
  type AreaCourse,
  type Counted,
  type Course,
  type OpenPain,
  type Reason,
} from './course';
import { bar, judge, leaveDrill, referral, type PainVerdict } from './hurting';
import { nameAt, placeOf, type Place } from './place';
import { leaveOutDrill } from './overruling';

type Finding = EntryOf<'finding'>;

/** The area that a finding is about: that of its check or drill, else the one at hand. */
function areaOf({ book }: Course, { check, drill }: Finding, place: Place | null): Area | null {
  if (check !== null) return book.checks[check]?.area ?? null;
  if (drill !== null) return book.drills[drill]?.area ?? null;
  return place?.at.area ?? null;
}

/** Whether a finding is about what is at hand; one that names nothing is. */
const isAtHand = ({ check, drill }: Finding, place: Place): boolean =>
  (check === null && drill === null) ||
  (place.do === 'check' ? place.slot.check === check : place.climb.visit.drill === drill);

/** What an answered finding leads to. Its pain must have been judged: no number or kind missing. */
export function answer(course: Course, pain: OpenPain): Reason {
  const place = placeOf(course);
  const verdict = judge(course, pain);
  const area = areaOf(course, pain.finding, place);
  const at = area === null ? undefined : course.areas.get(area);
  if (place === null || area === null || at === undefined) return course.reason;
  const isCheck =
    pain.finding.check !== null || (pain.finding.drill === null && place.do === 'check');
  const counted = countedOf(course, at, place, pain, isCheck);
  course.counted.push(counted);
  const drill = isCheck ? null : (pain.finding.drill ?? at.climb?.visit.drill ?? '');
  if (bar(course, at, verdict, drill)) {
    leaveDrill(course, '1.11', false);
    return referral(course, area, pain);
  }
  return isCheck
    ? answerCheck(course, at, place, pain.finding, verdict, counted)
    : answerDrill(course, at, place, pain.finding, verdict);
}

/** Where a finding counts. Once a ladder is begun, what led to it stands. */
function countedOf(
  { book }: Course,
  at: AreaCourse,
  place: Place,
  pain: OpenPain,
  isCheck: boolean,
): Counted {
  const own = place.at === at && place.do === (isCheck ? 'check' : 'set');
  const isHere = own && isAtHand(pain.finding, place);
  const { area } = at;
  if (!isCheck) {
    if (!isHere || place.do !== 'set') return { area, pain, as: 'nothing' };
    const { visit, rung } = place.climb;
    return { area, pain, as: 'set', visit, set: visit.set, rung };
  }
  if (scriptOf(book, pain.finding, place) === undefined || (!own && at.climb !== null)) {
    return { area, pain, as: 'nothing' };
  }
  const asked = isHere && place.do === 'check' ? place.slot.side : null;
  const retest = own && place.do === 'check' && place.retest;
  return { area, pain, as: 'check', retest, asked, answers: [] };
}

/** The check that a finding is about: its own, else the one at hand. */
const scriptOf = ({ checks }: CueBook, { check }: Finding, place: Place) =>
  checks[check ?? (place.do === 'check' ? place.slot.check : '')];

function answerDrill(
  course: Course,
  at: AreaCourse,
  place: Place,
  finding: Finding,
  verdict: PainVerdict,
): Reason {
  const own = isAtHand(finding, place) && place.do === 'set';
  if (verdict === 'back' || verdict === 'over') {
    if (own) place.climb.sets += 1;
    const rule = verdict === 'over' ? '1.5' : '1.6';
    return leaveDrill(course, rule, own) ?? course.reason;
  }
  if (!own) return course.reason;
  if (finding.result === 'not-tested') return leaveOutDrill(course, place);
  const isRepeated = course.homework === null || verdict === 'none';
  if (finding.result === 'pain' && isRepeated) {
    place.climb.sets += 1;
    return goesOn(course, place, verdict);
  }
  const { side, result, faults } = finding;
  return answerSet(course, at, place.climb, side, { result, faults });
}

/** Rules 1.10 and 1.12: it is done again, since no result was said. */
const goesOn = (course: Course, place: Place, verdict: PainVerdict): Reason => {
  const name = nameAt(course, place);
  return verdict === 'none'
    ? because('1.12', 'no-pain', { name })
    : because('1.10', 'pain-goes-on', { name });
};

function answerCheck(
  course: Course,
  at: AreaCourse,
  place: Place,
  finding: Finding,
  verdict: PainVerdict,
  counted: Counted,
): Reason {
  const script = scriptOf(course.book, finding, place);
  if (script === undefined || counted.as !== 'check') {
    return leaveDrill(course, '1.6', false) ?? course.reason;
  }
  const own = place.do === 'check' && place.at === at;
  const { retest } = counted;
  const round = retest ? at.retests : at.checks;
  const slots = slotsSaid(script, finding.side, counted.asked);
  const { id: entry, result, faults } = finding;
  if (result === 'not-tested') {
    for (const slot of slots) counted.answers.push({ slot, answer: leaveOut(round, slot) });
    after(course, own, slots);
    return because('10.8', 'not-tested', { check: script.name }, { by: 'coach', passing: true });
  }
  const isOpen = result === 'pain' && (verdict === 'goes-on' || verdict === 'none');
  const again = slots.filter((slot) => isOpen && trialOf(round, slot).tries + 1 < MOST_TRIES);
  for (const slot of slots) {
    const given = verdict === 'back' ? 'pain' : result;
    const answer = again.includes(slot) ? null : { result: given, faults, entry };
    record(round, slot, answer);
    counted.answers.push({ slot, answer });
  }
  if (own && again[0] !== undefined) {
    course.focus = again[0];
    return goesOn(course, place, verdict);
  }
  after(course, own, slots);
  if (verdict === 'back')
    return because('1.9', 'pain-in-check', { area: nameOf(course.book, at.area) });
  if (!own) return course.reason;
  const next = placeOf(course);
  if (next?.do !== 'check') return because('10.2', 'next-check', { check: script.name }, passing);
  const values = { check: nameAt(course, next) };
  if (next.slot.check === script.id)
    return because('10.3', 'other-side', { name: values.check }, passing);
  return retest && !course.book.checks[next.slot.check]?.loaded
    ? because('5.1', 'next-check', values, passing)
    : retest
      ? because('5.2', 'retest-loaded', values, passing)
      : because('10.2', 'next-check', values, passing);
}

const passing = { passing: true } as const;

function after(course: Course, own: boolean, slots: Course['trail']): void {
  if (!own) return;
  course.trail.push(...slots);
  course.focus = null;
}
