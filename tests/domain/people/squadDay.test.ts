import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  among,
  begun,
  cutOff,
  ended,
  everyTurn,
  mayPutOff,
  putOff,
  squadDayFrom,
  squadDayOf,
  toCome,
  type SquadDay,
} from '../../../src/domain/people/squadDay';

const who = (day: SquadDay) => everyTurn(day).map(({ person, stands }) => `${person} ${stands}`);
const coming = (day: SquadDay) => toCome(day).map(({ person }) => person);

describe('a squad day', () => {
  it('goes from one to the next, and somebody put off comes back with the session left open', () => {
    let day = begun(squadDayOf(['marn', 'tosk', 'ash']), 's1');
    expect(who(day)).toEqual(['marn now', 'tosk waiting', 'ash waiting']);
    day = putOff(day);
    expect(who(day)).toEqual(['tosk waiting', 'ash waiting', 'marn later']);
    day = ended(begun(day, 's2'));
    day = ended(begun(day, 's3'));
    expect(who(day)).toEqual(['tosk seen', 'ash seen', 'marn later']);
    day = begun(day, 's4');
    expect(day.now).toEqual({ person: 'marn', session: 's1' });
    expect(toCome(ended(day))).toEqual([]);
  });

  it('who is next is put off before a session has begun too', () => {
    const day = putOff(squadDayOf(['marn', 'tosk']));
    expect(who(day)).toEqual(['tosk waiting', 'marn later']);
    expect(coming(putOff(day))).toEqual(['marn', 'tosk']);
  });

  it('nobody is put off for nobody', () => {
    const alone = squadDayOf(['marn']);
    expect(mayPutOff(alone)).toBe(false);
    expect(putOff(alone)).toBe(alone);
    const runs = begun(alone, 's1');
    expect(mayPutOff(runs)).toBe(false);
    expect(putOff(runs)).toBe(runs);
  });

  it('whose session was cut off with the page is next, and goes on in it', () => {
    const day = cutOff(begun(putOff(squadDayOf(['marn', 'tosk', 'ash'])), 's1'));
    expect(coming(day)).toEqual(['tosk', 'ash', 'marn']);
    expect(begun(day, 's2').now).toEqual({ person: 'tosk', session: 's1' });
  });

  it('whoever is deleted meanwhile is left out', () => {
    const day = begun(squadDayOf(['marn', 'tosk', 'ash']), 's1');
    expect(who(among(day, (person) => person !== 'marn'))).toEqual(['tosk waiting', 'ash waiting']);
    expect(who(among(day, (person) => person !== 'tosk'))).toEqual(['marn now', 'ash waiting']);
  });

  it('refuses nobody, and somebody twice, by name', () => {
    expect(() => squadDayOf([])).toThrow('Nobody is named');
    expect(() => squadDayOf(['marn', 'tosk', 'marn'])).toThrow('marn is named twice');
  });

  it('is read again as it was kept, and anything else is none', () => {
    const day = begun(putOff(squadDayOf(['marn', 'tosk', 'ash'])), 's1');
    expect(squadDayFrom(JSON.parse(JSON.stringify(day)))).toEqual(day);
    const turn = { person: 'marn', session: null };
    for (const broken of [
      null,
      'day',
      {},
      { ...day, waiting: undefined },
      { ...day, seen: [{ person: 1, session: null }] },
      { ...day, now: { person: 'x' } },
      { now: turn, waiting: [turn], later: [], seen: [] },
    ])
      expect(squadDayFrom(broken)).toBeNull();
  });
});

describe('whatever is done on a squad day', () => {
  const step = fc.constantFrom('begin', 'put off', 'end', 'cut off');
  const walk = fc.record({
    people: fc.uniqueArray(fc.string({ minLength: 1, maxLength: 3 }), {
      minLength: 1,
      maxLength: 8,
    }),
    steps: fc.array(step, { maxLength: 40 }),
  });

  it('nobody is lost, nobody is there twice, and those who wait keep their order', () => {
    fc.assert(
      fc.property(walk, ({ people, steps }) => {
        let day = squadDayOf(people);
        const sessions = new Map<string, string>();
        steps.forEach((what, at) => {
          const before = day;
          if (what === 'begin') day = begun(day, `s${at}`);
          if (what === 'put off') day = putOff(day);
          if (what === 'end') day = ended(day);
          if (what === 'cut off') day = cutOff(day);
          expect(everyTurn(day).map(({ person }) => person)).toHaveLength(people.length);
          expect(new Set(everyTurn(day).map(({ person }) => person))).toEqual(new Set(people));
          // Who waits is always a part of the list, in its order.
          const waiting = day.waiting.map(({ person }) => people.indexOf(person));
          if (!steps.includes('cut off'))
            expect(waiting).toEqual([...waiting].sort((one, other) => one - other));
          // A session that was begun stays with its turn; who was seen stays so.
          for (const { person, session } of everyTurn(day)) {
            const known = sessions.get(person);
            if (known !== undefined) expect(session).toBe(known);
            if (session !== null) sessions.set(person, session);
          }
          expect(day.seen.slice(0, before.seen.length)).toEqual(before.seen);
        });
      }),
    );
  });

  it('it comes to its end: everybody is seen once those who are left have their turn', () => {
    fc.assert(
      fc.property(walk, ({ people, steps }) => {
        let day = squadDayOf(people);
        for (const what of steps) {
          if (what === 'begin') day = begun(day, 's');
          if (what === 'put off') day = putOff(day);
          if (what === 'end') day = ended(day);
        }
        for (let turn = 0; turn <= people.length; turn += 1) day = ended(begun(day, 's'));
        expect(day.seen).toHaveLength(people.length);
        expect(toCome(day)).toEqual([]);
      }),
    );
  });
});
