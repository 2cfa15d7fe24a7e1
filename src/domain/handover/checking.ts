import type { CueBook, DrillId } from '../script';
import type { Handover, HandoverTask } from './handover';
import { RefusedHandover } from './refused';

/** Throws RefusedHandover where something in it is not what this book of cues could hand over. */
export function mustFitBook(book: CueBook, handover: Handover): void {
  const { language, tasks, missing, allowedAlone, painGoesOnUpTo, painRefersAbove } = handover;
  if (language !== book.language) {
    refuse('language', `it is in "${language}", and this page speaks "${book.language}" now.`);
  }
  tasks.forEach((task, at) => {
    if (tasks.findIndex(({ area }) => area === task.area) < at) {
      refuse(`tasks[${at}].area`, `${task.area} stands there twice; an area has one drill.`);
    }
    mustFitLadder(book, handover, task, `tasks[${at}]`);
  });
  mustBeKnown(missing, book.equipment, 'missing', 'piece of equipment');
  mustBeKnown(allowedAlone, book.drills, 'allowedAlone', 'drill');
  if (painGoesOnUpTo > painRefersAbove) {
    refuse(
      'painGoesOnUpTo',
      `it is ${painGoesOnUpTo}, above painRefersAbove, which is ${painRefersAbove}.`,
    );
  }
}

function mustFitLadder(
  book: CueBook,
  { allowedAlone }: Handover,
  { area, drill, rung, load }: HandoverTask,
  at: string,
): void {
  const script = ownOf(book.drills, drill);
  if (script === undefined) refuse(`${at}.drill`, `no drill here is called "${drill}".`);
  const rungs = book.ladders[area]?.rungs ?? [];
  if (rung > rungs.length) {
    refuse(`${at}.rung`, `the ladder of ${area} has ${rungs.length} rungs, not ${rung}.`);
  }
  const on = rungs[rung - 1];
  if (on === undefined || ![on.drill, ...(on.alternates ?? [])].includes(drill)) {
    refuse(`${at}.drill`, `"${drill}" is not on rung ${rung} of ${area}.`);
  }
  if (load !== 'as-written' && load !== script.easier?.load) {
    refuse(`${at}.load`, `"${drill}" is not handed over ${load}.`);
  }
  if (script.aloneOnlyIfAllowed === true && !allowedAlone.includes(drill)) {
    refuse(`${at}.drill`, `a coach has to allow "${drill}" alone, and it is not allowed in it.`);
  }
}

function mustBeKnown(
  ids: readonly DrillId[],
  known: Record<string, unknown>,
  list: string,
  what: string,
): void {
  ids.forEach((id, at) => {
    if (ownOf(known, id) === undefined)
      refuse(`${list}[${at}]`, `no ${what} here is called "${id}".`);
    if (ids.indexOf(id) < at) refuse(`${list}[${at}]`, `"${id}" stands there twice.`);
  });
}

/** What the record itself has under that name, and not what all objects share. */
const ownOf = <T>(record: Record<string, T>, id: string): T | undefined =>
  Object.hasOwn(record, id) ? record[id] : undefined;

function refuse(place: string, reason: string): never {
  throw new RefusedHandover('homework', place, reason);
}
