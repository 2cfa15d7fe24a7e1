import { describe, expect, it } from 'vitest';
import { readAthleteFile } from '../../src/cli/athleteFile';
import { secondsOf } from '../../src/cli/durations';
import { rehearse, type Rehearsal } from '../../src/cli/rehearsing';
import { readReplies } from '../../src/cli/replies';
import { bookOf } from '../../src/cli/verb';
import { written } from './running';

const book = bookOf();
const read = (given: object) => readAthleteFile(written('room.json', JSON.stringify(given)), book);
const replies = readReplies(written('room.txt', 'knees came forward\n' + 'pass\n'.repeat(12)));
const run = (more: Partial<Rehearsal>) => {
  const { settings } = read({});
  return rehearse({
    book,
    routine: 'hinge',
    way: 'hands-on',
    settings,
    secondsOf,
    replies,
    ...more,
  });
};
const drills = (more: Partial<Rehearsal>) => [
  ...new Set(run(more).entries.flatMap((entry) => (entry.type === 'finding' ? [entry.drill] : []))),
];

describe('what the gym lacks, and what is allowed alone, in a file of --athlete', () => {
  it('changes the drills of a rehearsal, and stands at the start of its log', () => {
    const { missing } = read({ missingEquipment: ['kettlebell', 'rack'] });
    expect(drills({ missing })).toEqual([
      null,
      'stick-hinge',
      'two-bell-romanian-deadlift',
      'deadlift',
    ]);
    expect(run({ missing }).entries[0]).toMatchObject({ missing: ['kettlebell', 'rack'] });
  });

  it('gives the very same timeline where nothing is missing', () => {
    const { missing } = read({ missingEquipment: [] });
    expect(run({ missing, allowedAlone: [] })).toEqual(run({}));
    expect(run({ missing }).entries[0]).not.toHaveProperty('missing');
  });

  it('refuses what is no list of known names, and says the known ones', () => {
    expect(() => read({ missingEquipment: 'kettlebell' })).toThrow(
      'missingEquipment must be a list of ids, such as ["backpack"].',
    );
    expect(() => read({ missingEquipment: ['kettle'] })).toThrow(
      /missingEquipment: "kettle" is not known\. Known: .*kettlebell/,
    );
    expect(() => read({ allowedAlone: ['snatch'] })).toThrow(
      /allowedAlone: "snatch" is not known\. Known: .*deadlift/,
    );
    expect(read({ allowedAlone: ['deadlift'] })).toMatchObject({ allowedAlone: ['deadlift'] });
  });
});
