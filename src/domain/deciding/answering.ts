import type { Area } from '../areas';
import type { EntryOf } from '../log';
import { leaveOut, record, slotsSaid, trialOf } from './checking';
import { answerSet, drillsOn, rungOf } from './climbing';
import {
  because,
  MOST_TRIES,
  nameOf,
  type AreaCourse,
  type Course,
  type OpenPain,
  type Reason,
} from './course';
import { judge, leaveDrill, refer, referral, type PainVerdict } from './hurting';
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
  if (verdict !== 'none') at.hurt = true;
  const isCheck =
    pain.finding.check !== null || (pain.finding.drill === null && place.do === 'check');
  if (verdict === 'refer' || (verdict === 'over' && isCheck)) {
    refer(course, area);
    leaveDrill(course, '1.11', false);
    return referral(course, area, pain);
  }
  if (verdict === 'back' || verdict === 'over') {
    const drill = pain.finding.drill ?? at.climb?.visit.drill ?? '';
    const below = verdict === 'back' && !isCheck ? rungOf(course, at, drill) : 0;
    at.unloadedOnly = true;
    at.standInsBelow = Math.min(at.standInsBelow, below);
  }
  return isCheck
    ? answerCheck(course, at, place, pain.finding, verdict)
    : answerDrill(course, at, place, pain.finding, verdict);
}

function answerDrill(
  course: Course,
  at: AreaCourse,
  place: Place,
  finding: Finding,
  verdict: PainVerdict,
): Reason {
  const own = isAtHand(finding, place) && place.do === 'set';
  const climb = at.climb;
  if (verdict === 'back' || verdict === 'over') {
    const drill = finding.drill ?? climb?.visit.drill;
    if (verdict === 'over' && drill !== undefined) {
      for (const one of drillsOn(course, at, rungOf(course, at, drill))) climb?.over.add(one);
    }
    if (own) place.climb.sets += 1;
    const rule = verdict === 'over' ? '1.5' : '1.6';
    return leaveDrill(course, rule, own) ?? course.reason;
  }
  if (!own) return course.reason;
  if (finding.result === 'not-tested') return leaveOutDrill(course, place);
  if (finding.result === 'pain') {
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
): Reason {
  const script =
    course.book.checks[finding.check ?? (place.do === 'check' ? place.slot.check : '')];
  const own = place.do === 'check' && place.at === at;
  // Once a ladder is begun, what led to it stands.
  if (script === undefined || (!own && at.climb !== null)) {
    return leaveDrill(course, '1.6', false) ?? course.reason;
  }
  const retest = own && place.retest;
  const round = retest ? at.retests : at.checks;
  const asked = own && isAtHand(finding, place) ? place.slot.side : null;
  const slots = slotsSaid(script, finding.side, asked);
  const { id: entry, result, faults } = finding;
  if (result === 'not-tested') {
    slots.forEach((slot) => leaveOut(round, slot));
    after(course, own, slots);
    return because('10.8', 'not-tested', { check: script.name }, { by: 'coach', passing: true });
  }
  const isOpen = result === 'pain' && (verdict === 'goes-on' || verdict === 'none');
  const again = slots.filter((slot) => isOpen && trialOf(round, slot).tries + 1 < MOST_TRIES);
  for (const slot of slots) {
    const given = verdict === 'back' ? 'pain' : result;
    record(round, slot, again.includes(slot) ? null : { result: given, faults, entry });
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
