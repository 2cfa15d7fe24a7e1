import type { BroughtIn } from '../../domain/keeping/wholeRecord';
import { countOf } from '../squadDay/words';

/** What comes in with a file, one thing a line; empty where nothing does. */
export function changesOf(came: BroughtIn): string[] {
  const lines: [number, string, string][] = [
    [came.peopleAdded, 'athlete is new', 'athletes are new'],
    [came.peopleChanged, 'athlete is changed', 'athletes are changed'],
    [came.sessionsAdded, 'session is new', 'sessions are new'],
    [came.entriesAdded, 'entry is new', 'entries are new'],
    [came.notesAdded, 'note is new', 'notes are new'],
    [came.entriesMended, 'damaged entry is whole again', 'damaged entries are whole again'],
    [
      came.stayErased,
      'athlete was deleted here and stays deleted',
      'athletes were deleted here and stay deleted',
    ],
    [
      came.peopleErased,
      'athlete was deleted on the other device, and so here',
      'athletes were deleted on the other device, and so here',
    ],
  ];
  return lines.flatMap(([count, one, many]) => (count === 0 ? [] : [countOf(count, one, many)]));
}
