import type { CueBook } from '../script';
import { entries } from './entries';
import { numberSpoken } from './numbers';
import type { Reply } from './reply';

/**
 * The fewest words that say a reply back, such as "left, one forty, ribs": a side, an angle, a
 * result and each fault, parted by commas, each in its shortest spoken form. None is ever dropped;
 * only a result is not said beside a fault of its kind, which says it. So a side, a result and a
 * fault are four words at most, and so are two faults without a side. What else was said makes it
 * longer rather than being left out: an angle by its two or three words ("one forty"), each further
 * fault by its one or two, pain with its kind and number, the other side. Null where it is empty.
 */
export function readbackOf(book: CueBook, reply: Reply): string | null {
  const { numbers, sides, results, pain, redFlags, commands, goTo, same } = book.vocabulary;
  const isBefore = book.vocabulary.adjectivesStand === 'before';
  const spoken: string[] = [];
  const say = (words: string | undefined) => {
    if (words) spoken.push(words);
  };
  const answer = reply.command === 'yes' || reply.command === 'no' ? reply.command : null;
  if (answer) say(commands[answer].readback);
  if (reply.redFlag) say(redFlags[reply.redFlag].readback);
  if (reply.same && reply.result === null) say(same.readback[reply.side ?? 'alone']);
  else if (reply.side) say(sides[reply.side].readback);
  if (reply.angleDegrees !== null) say(numberSpoken(numbers, reply.angleDegrees));
  const told = reply.faults.flatMap((fault) => book.faults[fault] ?? []);
  const byFault = told.some(
    ({ kind }) => reply.result === (kind === 'position' ? 'lost' : 'short'),
  );
  for (const [word, { readback }] of entries(results))
    if (word === reply.result && !byFault) say(readback);
  for (const fault of told) say(fault.readback);
  const kind = reply.painKind ? pain.kinds[reply.painKind].readback : '';
  if (reply.pain === 0) say(pain.none.say[0]);
  else if (reply.result === 'pain' || reply.pain !== null) {
    const much = reply.pain === null ? '' : numberSpoken(numbers, reply.pain);
    const named = isBefore ? [kind, pain.readback] : [pain.readback, kind];
    say([...named, much].filter(Boolean).join(' '));
  } else say(kind);
  if (reply.command === 'go-to') {
    const script = book.drills[reply.target ?? ''] ?? book.checks[reply.target ?? ''];
    say(script ? `${goTo.readback} ${script.name}` : goTo.which);
  } else if (reply.command && !answer) say(commands[reply.command].readback);
  return spoken.length > 0 ? spoken.join(', ') : null;
}

/** "Left, limited, and right, pass". */
export function bothRead(book: CueBook, reply: Reply, and: Reply | undefined): string | null {
  const one = readbackOf(book, reply);
  const joined =
    and && [one, readbackOf(book, and)].join(`, ${book.vocabulary.numbers.and[0] ?? ''} `);
  return joined ?? one;
}
