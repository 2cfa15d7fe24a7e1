import { describe, expect, it } from 'vitest';
import type { People, Records } from '../../src/ports';
import { ended, finding, started } from './entries';
import { someone } from '../domain/people/someone';

/** What every keeper of people must do; `create` gives an empty one with the records beside it. */
export const peopleContract = (
  name: string,
  create: () => { people: People; records: Records },
): void => {
  const idsIn = async (people: People) => (await people.all()).map(({ id }) => id).sort();

  describe(`${name} keeps the people`, () => {
    it('gives back who was saved, field for field', async () => {
      const { people } = create();
      const one = someone('a', {
        ...{ name: 'Żofia Ñandú', squad: 'Mornings', birthYear: 2013, sex: 'female' },
        ...{ statureMillimetres: 1655.5, kneeMillimetres: 470, angleTool: 'inclinometer' },
        ...{ mindText: 'left wrist\nno hanging', guardianAgreedOn: '2031-03-01', isInvented: true },
      });
      await people.save([one, someone('b')]);
      expect(await people.all()).toContainEqual(one);
      expect(await idsIn(people)).toEqual(['a', 'b']);
    });

    it('replaces somebody of the same id, and keeps the others as they are', async () => {
      const { people } = create();
      await people.save([someone('a'), someone('b')]);
      await people.save([someone('a', { name: 'Dov Marn' })]);
      expect(await people.all()).toHaveLength(2);
      expect(await people.all()).toContainEqual(someone('a', { name: 'Dov Marn' }));
      expect(await people.all()).toContainEqual(someone('b'));
    });

    it('is not changed by what is done with those it gave or was given', async () => {
      const { people } = create();
      const given = someone('a');
      await people.save([given]);
      given.name = 'changed';
      for (const one of await people.all()) one.name = 'changed';
      expect(await people.all()).toEqual([someone('a')]);
    });

    it('removes those that are named, and minds none that are not there', async () => {
      const { people } = create();
      await people.save([someone('a'), someone('b'), someone('c')]);
      await people.remove(['a', 'c', 'never']);
      expect(await idsIn(people)).toEqual(['b']);
      expect(await people.ids()).toEqual(['b']);
      await people.remove([]);
      expect(await idsIn(people)).toEqual(['b']);
    });

    it('leaves the entries of somebody who is removed whole, and removes nobody with entries', async () => {
      const { people, records } = create();
      const session = [started('mon', undefined, 'a'), finding('mon', 1), ended('mon', 2)];
      await people.save([someone('a'), someone('b', { isInvented: true })]);
      await records.addAll([...session, started('invented-1', undefined, 'b')]);
      await people.remove(['a']);
      expect(await records.read('mon')).toEqual(session);
      expect((await records.sessions()).map((head) => head.person).sort()).toEqual(['a', 'b']);
      await records.removeInvented();
      expect(await idsIn(people)).toEqual(['b']);
    });
  });
};
