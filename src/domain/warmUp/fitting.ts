/** How long each turn takes, so that the whole ends when it was promised. */
import { round, type Stretch, type Turn } from './turns';

/** Turns with their seconds; their sum is exactly what was asked for where that is possible. */
export interface Fitted {
  turns: { turn: Turn; changeSeconds: number; workSeconds: number }[];
  seconds: number;
}

/** What turns take as they are written, at the least and at the most, seconds. */
export const boundsOf = (turns: readonly Turn[]): Stretch => ({
  least: sum(turns, 'least'),
  written: sum(turns, 'written'),
  most: sum(turns, 'most'),
});

/**
 * Makes turns last exactly `seconds` together, to the millisecond: work gives way or grows first,
 * then the changes, each in proportion to the room it has, and last of all people wait in them, up
 * to `mostWaitSeconds` each. Where even that is not enough, they last as long as they can.
 */
export function fitted(turns: readonly Turn[], seconds: number, mostWaitSeconds: number): Fitted {
  const { written } = boundsOf(turns);
  const end = seconds < written ? 'least' : 'most';
  const roomIn = (part: 'work' | 'change') =>
    turns.map((turn) => turn[part][end] - turn[part].written);
  const works = roomIn('work');
  const changes = roomIn('change');
  const wanted = seconds - written;
  const inWork = nearer(wanted, total(works));
  const inChange = nearer(wanted - inWork, total(changes));
  const waits = turns.map(({ change }) =>
    wanted < 0 ? 0 : Math.max(0, mostWaitSeconds - change.most),
  );
  const waitBy = shared(waits, nearer(wanted - inWork - inChange, total(waits)));
  const workBy = shared(works, inWork);
  const changeBy = shared(changes, inChange);
  const fittedTurns = turns.map((turn, at) => ({
    turn,
    changeSeconds: round(turn.change.written + (changeBy[at] ?? 0) + (waitBy[at] ?? 0)),
    workSeconds: round(turn.work.written + (workBy[at] ?? 0)),
  }));
  return {
    turns: fittedTurns,
    seconds: round(total(fittedTurns.map((each) => each.changeSeconds + each.workSeconds))),
  };
}

/** As much of what is wanted as there is room for, in the same direction. */
const nearer = (wanted: number, room: number): number =>
  room < 0 ? Math.min(0, Math.max(wanted, room)) : Math.max(0, Math.min(wanted, room));

/** Shares `amount` out in proportion to the room, in whole milliseconds; the shares sum to it. */
function shared(rooms: number[], amount: number): number[] {
  const all = total(rooms);
  if (all === 0) return rooms.map(() => 0);
  let given = 0;
  let upTo = 0;
  return rooms.map((room) => {
    upTo += room;
    const share = round((amount * upTo) / all) - given;
    given = round(given + share);
    return share;
  });
}

const total = (numbers: number[]): number => numbers.reduce((sum, one) => sum + one, 0);

const sum = (turns: readonly Turn[], end: keyof Stretch): number =>
  round(total(turns.map(({ change, work }) => change[end] + work[end])));
