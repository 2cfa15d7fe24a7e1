import { describe, expect, it } from 'vitest';
import { bookOf } from '../../src/cli/verb';
import { DEFAULT_SETTINGS, type Entry, type Fact } from '../../src/domain/log';
import { RUN_WITH_INVENTED } from '../../src/domain/people/inventedClub';
import { createUnfinished } from '../../src/main/unfinished';
import { memoryRecords } from '../../src/records/memoryRecords';
import { INVENTED_SESSION } from '../../src/ports';
import { createSeatStore } from '../../src/screens/seat';
import { STATE } from '../screens/fakeSeat';

const book = bookOf();
const logOf = (session: string, day: number, ...more: Fact[]): Entry[] =>
  [
    {
      ...{ type: 'started' as const, routine: 'hinge', language: 'en', way: 'hands-on' as const },
      ...{ startedAt: `2031-03-0${day}T09:00:00+01:00`, settings: DEFAULT_SETTINGS },
      person: `${session}-person`,
    },
    ...more,
  ].map((fact, at) => ({ ...fact, id: `${session}:phone:${at}`, atSeconds: at }));
const HELD: Fact = {
  ...{ type: 'finding', prompt: 'check/hinge-unloaded', check: 'hinge-unloaded', drill: null },
  ...{ load: null, side: null, result: 'held', faults: [], angleDegrees: null, tool: null },
  ...{ pain: null, source: { by: 'hand', text: 'held', confidence: 1 } },
};
const ENDED: Fact = { type: 'ended', reason: 'completed' };

async function seated(logs: Entry[][], isTaken: (session: string) => boolean = () => false) {
  const store = createSeatStore({ ...STATE, where: 'people', book });
  const records = memoryRecords();
  await records.addAll(logs.flat());
  const place = createUnfinished({ book, records, store, isTaken });
  await place.look();
  return {
    ...{ place, store },
    offered: () => store.state().unfinished.map(({ head }) => head.session),
  };
}
const THREE = [logOf('a', 1), logOf('b', 2, HELD), logOf('over', 4, ENDED), logOf('c', 3)];

describe('sessions that were cut off', () => {
  it('are each offered, the newest first, with whose they are and what is open', async () => {
    const { store, offered } = await seated(THREE);
    expect(offered()).toEqual(['c', 'b', 'a']);
    expect(store.state().unfinished.map(({ head, open }) => [head.person, open?.prompt])).toEqual([
      ['c-person', 'check/hinge-unloaded'],
      ['b-person', 'check/hinge-bar'],
      ['a-person', 'check/hinge-unloaded'],
    ]);
  });

  it('leaving one alone leaves the others, and the record as it is', async () => {
    const { place, offered } = await seated(THREE);
    place.discard('b');
    expect(offered()).toEqual(['c', 'a']);
    await place.look();
    expect(offered()).toEqual(['c', 'a']);
    expect((await seated(THREE)).offered()).toEqual(['c', 'b', 'a']);
  });

  it('one that was run with somebody invented is offered too, as it leaves with the club', async () => {
    expect(RUN_WITH_INVENTED.startsWith(INVENTED_SESSION)).toBe(true);
    const { offered } = await seated([logOf(`${RUN_WITH_INVENTED}1`, 1), logOf('invented-1', 2)]);
    expect(offered()).toEqual([`${RUN_WITH_INVENTED}1`]);
  });

  it('rehearsals, the invented club and what a squad day takes up are not offered', async () => {
    const logs = [logOf('rehearsal-1', 1), logOf('invented-1', 2), logOf('day', 3), logOf('a', 4)];
    const { offered } = await seated(logs, (session) => session === 'day');
    expect(offered()).toEqual(['a']);
  });

  it('one that cannot be read here is offered all the same, and may say why it did not go on', async () => {
    const [started] = logOf('far', 1);
    const { place, store } = await seated([[{ ...started!, routine: 'nowhere' } as Entry]]);
    expect(store.state().unfinished).toMatchObject([{ head: { session: 'far' }, open: null }]);
    place.tell('far', 'Try it again.');
    expect(store.state().unfinished).toMatchObject([{ trouble: 'Try it again.' }]);
  });
});
