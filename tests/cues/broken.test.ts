import { mkdtempSync, rmSync, unlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkFolder } from '../../src/cues/checking';
import { CueError, loadBook } from '../../src/cues/fromFolder';
import { readSources } from '../../src/cues/reading';
import { alikeProblems } from '../../src/cues/repliesAlike';
import { lexiconFor } from '../../src/ear/lexicon';
import { change, copyOfScripts, problemsOf, problemsAfter } from './copy';

const HINGE = 'drills/bell-hinge.yaml';
const OVERHEAD = 'checks/overhead.yaml';

describe('a broken script is named by file, line and field, with what is allowed', () => {
  it.each([
    [
      'a number out of its limits',
      [HINGE, 'downSeconds: 3', 'downSeconds: 30'],
      ['steps.1.downSeconds', 'downSeconds: 30', 'must be 1 to 8 seconds'],
    ],
    [
      'a word where one of a list is needed',
      [HINGE, 'load: raised', 'load: softer'],
      ['easier.load', 'load: softer', 'must be one of lighter, raised, shallower, unloaded'],
    ],
    [
      'text where a number is needed',
      [HINGE, 'sets: 3', 'sets: three'],
      ['dose.sets', 'sets: three', 'must be a number'],
    ],
    [
      'a field that nobody knows',
      [HINGE, 'sided: false', 'sidded: false'],
      ['sidded', 'sidded: false', /sidded: not known here; allowed: id, area, name, sided/],
    ],
    [
      'a field that is missing',
      [HINGE, 'sided: false\n', ''],
      ['sided', 'id: bell-hinge', 'is missing; it must be true or false'],
    ],
    [
      'a step that is none',
      [HINGE, 'do: reps', 'do: jumps'],
      ['steps.1.do', 'do: jumps', 'do must be one of say, exhale, hold, reps, rest'],
    ],
    [
      'an area that is none',
      [HINGE, 'area: hinge', 'area: hip'],
      ['area', 'area: hip', 'must be one of overhead, squat, hinge'],
    ],
    [
      'an id with a capital',
      ['routines/hinge.yaml', 'id: hinge', 'id: Hinge'],
      ['id', 'id: Hinge', /lower-case words/],
    ],
    [
      'a key of a sentence that is none',
      ['says.yaml', 'say.paused:', 'paused:'],
      ['paused', /^paused:/, /keys are written like/],
    ],
    [
      'a placeholder that is left open',
      ['says.yaml', '{minutes}', '{minutes'],
      ['say.time-left', /say.time-left/, /placeholder is written \{name\}/],
    ],
    [
      'equipment without its name',
      ['equipment.yaml', '  name: a rack\n', '  orElse: a wall\n'],
      ['rack.name', 'rack:', /is missing/],
    ],
    [
      'reps without their count',
      [HINGE, '  reps: 6\n', ''],
      ['dose.reps', 'dose:', /is missing; the steps have reps/],
    ],
  ] as const)('%s', (_, [file, from, to], [field, line, problem]) => {
    expect(problemsAfter(file, from, to)).toContainEqual({
      file,
      field,
      line: expect.stringMatching(line) as string,
      problem: expect.stringMatching(problem) as string,
    });
  });

  it('text that is no YAML at all, with its line', () => {
    const found = problemsAfter(HINGE, 'name: the bell hinge', 'name: [the bell hinge');
    expect(found[0]).toMatchObject({
      file: HINGE,
      problem: expect.stringMatching(/not valid YAML/),
    });
  });

  it('several at once, each in its place', () => {
    const folder = copyOfScripts();
    change(folder, HINGE, 'sets: 3', 'sets: 0');
    change(folder, OVERHEAD, 'sided: true', 'sided: both');
    expect(checkFolder(folder, 'en').map(({ field }) => field)).toEqual([
      'checks.0.sided',
      'dose.sets',
    ]);
  });
});

describe('a name that is not there lists the known ones', () => {
  it.each([
    [HINGE, '- kettlebell', '- kettle', 'equipment.0', /no equipment.*known: .*kettlebell/],
    [
      'checks/hinge.yaml',
      '[barbell, stick]',
      '[barbell, pole]',
      'checks.1.equipment.1',
      /known: .*stick/,
    ],
    [
      'ladders/hinge.yaml',
      'alternates: [wall-hinge]',
      'alternates: [wall-lean]',
      'rungs.0.alternates.0',
      /known: .*wall-hinge/,
    ],
    [
      'ladders/hinge.yaml',
      'drill: bell-hinge',
      'drill: bell-swing',
      'rungs.1.drill',
      /known: .*bell-hinge/,
    ],
    [
      'ladders/hinge.yaml',
      'checks: [hinge-bar]',
      'checks: [bar]',
      'entry.4.checks.0',
      /known: hinge-unloaded, hinge-bar/,
    ],
    [
      'ladders/hinge.yaml',
      '[hips-first, bar-away]',
      '[heels-up]',
      'entry.2.faults.0',
      /no hinge fault/,
    ],
    [HINGE, 'fault: toes-up', 'fault: toes-down', 'fixes.9.fault', /no hinge fault.*toes-up/],
    [
      OVERHEAD,
      'faults: [ribs-flared]',
      'faults: [ribs]',
      'checks.0.faults.0',
      /no overhead fault.*ribs-flared/,
    ],
    ['routines/hinge.yaml', 'id: hinge', 'id: hinges', 'id', /must be the name of the file, hinge/],
    [OVERHEAD, 'id: overhead-active-lying', 'id: overhead-passive', 'checks.1.id', /already/],
    ['ladders/hinge.yaml', 'rung: 2', 'rung: 9', 'entry.1.rung', /must be 1 to 4/],
  ])('%s: %s → %s', (file, from, to, field, problem) => {
    expect(problemsAfter(file, from, to)).toContainEqual(
      expect.objectContaining({ file, field, problem: expect.stringMatching(problem) as string }),
    );
  });

  it('a fault of the area without its fix', () => {
    const found = problemsAfter(HINGE, /\n {2}- fault: toes-up\n.*\n/, '\n');
    expect(found).toEqual([
      {
        file: HINGE,
        field: 'fixes',
        line: 'fixes:',
        problem: 'no fix for toes-up; every hinge fault needs one',
      },
    ]);
  });

  it('the same sentence in two files', () => {
    const found = problemsAfter('lines.yaml', /\n(because\.)/, '\nsay.paused: I wait.\n$1');
    expect(found[0]?.problem).toMatch(/say.paused stands in .*says.yaml already/);
  });
});

describe('breathing stays within its limits', () => {
  it.each([3, 9, 5.5])('an exhale of %d s is refused', (seconds) => {
    const [first] = problemsAfter(
      'drills/supported-hang.yaml',
      'seconds: 6',
      `seconds: ${seconds}`,
    );
    expect(first).toMatchObject({ field: 'steps.1.seconds', line: `seconds: ${seconds}` });
  });

  it('more than six long exhales in a row are refused', () => {
    const [first] = problemsAfter('drills/lying-pullover.yaml', 'reps: 6', 'reps: 7');
    expect(first?.problem).toBe(
      'makes 7 long exhales in a row; at most 6 are allowed, then a rest with breaths: 2',
    );
  });

  it('two normal breaths follow every run of long exhales', () => {
    const [first] = problemsAfter('drills/supported-hang.yaml', 'breaths: 2', 'breaths: 1');
    expect(first).toMatchObject({
      field: 'steps.1.do',
      problem: expect.stringMatching(/add a rest with breaths: 2/) as string,
    });
  });

  it('a rest is long enough for its breaths', () => {
    const [first] = problemsAfter(OVERHEAD, /seconds: 8\n(\s+breaths: 2)/, 'seconds: 4\n$1');
    expect(first).toMatchObject({ field: 'checks.0.steps.3.seconds' });
  });
});

describe('what only the whole check finds', () => {
  it('a cue that takes ten seconds or more', () => {
    const long = Array.from({ length: 6 }, () => 'push the floor with both feet').join(', ');
    const found = problemsAfter(HINGE, /caution: .*/, `caution: ${long}.`);
    expect(found[0]).toMatchObject({ file: HINGE, field: 'caution' });
    expect(found[0]?.problem).toMatch(/takes 1\d\.\d s to say; less than 10 s is allowed/);
  });

  it('a count that does not fit its second', () => {
    const found = problemsAfter('says.yaml', 'count.3: three', 'count.3: three long seconds');
    expect(found[0]).toMatchObject({ field: 'count.3', line: 'count.3: three long seconds' });
  });

  it('a drill that stands on no rung', () => {
    const found = problemsAfter(
      'ladders/hinge.yaml',
      '  - drill: deadlift\n    alternates: [heavy-bell-deadlift]\n',
      '',
    );
    expect(found).toContainEqual(
      expect.objectContaining({ file: 'drills/deadlift.yaml', field: 'id' }),
    );
  });

  it('a drill that stands on the ladder twice, as an alternate too', () => {
    const found = problemsAfter(
      'ladders/hinge.yaml',
      '[heavy-bell-deadlift]',
      '[heavy-bell-deadlift, wall-hinge]',
    );
    expect(found).toContainEqual(
      expect.objectContaining({
        field: 'rungs.3.alternates.1',
        problem: 'stands on the ladder already',
      }),
    );
  });

  it('equipment that no drill or check needs', () => {
    const found = problemsAfter(
      'equipment.yaml',
      'kettlebell:\n',
      'rope:\n  name: a rope\nkettlebell:\n',
    );
    expect(found).toEqual([
      {
        file: 'equipment.yaml',
        field: 'rope',
        line: 'rope:',
        problem: 'no drill or check needs it',
      },
    ]);
  });

  it('checks, and a ladder, that no routine has', () => {
    const folder = copyOfScripts();
    unlinkSync(join(folder, 'en/routines/hinge.yaml'));
    change(folder, 'routines/readiness.yaml', /\n {2}- do: \w+\n {4}area: hinge/g, '');
    expect(problemsOf(folder).map(({ problem }) => problem)).toEqual([
      'no routine has the hinge checks',
      'no routine has the hinge ladder',
    ]);
  });

  it('rungs below the lowest entry', () => {
    const found = problemsAfter('ladders/hinge.yaml', /rung: 1\n/g, 'rung: 2\n');
    expect(found[0]).toMatchObject({ field: 'entry', problem: expect.stringMatching(/rung 1/) });
  });

  it('cues that the ear would take for a reply, and replies of one prompt that sound too alike', () => {
    const folder = copyOfScripts();
    const cues = [
      [HINGE, 'ask', 'Clean set.', /heard as a reply at idle: held/],
      [HINGE, 'caution', 'Stop.', /heard as a reply at idle: stop/],
      ['says.yaml', 'say.paused', 'Pause.', /pause/],
      ['says.yaml', 'ask.pain-number', 'Seven.', /pain 7/],
    ] as const;
    for (const [file, field, cue] of cues)
      change(folder, file, new RegExp(`${field}: .*`), `${field}: ${cue}`);
    // A sentence may name a reply where it says so, and no other.
    const marked = (key: string, reply: string) => `${key}:\n  text: Stop.\n  mayHear: [${reply}]`;
    change(folder, 'says.yaml', /say.deaf: .*/, marked('say.deaf', 'stop'));
    change(folder, 'says.yaml', /say.not-here: .*/, marked('say.not-here', 'pain'));
    change(folder, 'vocabulary.yaml', "'(hold|hang) on', wait]", "'(hold|hang) on', wait, stock]");
    // Both in one, since either takes seconds to find.
    const found = problemsOf(folder, lexiconFor);
    for (const [file, field, , problem] of cues)
      expect(found).toContainEqual(
        expect.objectContaining({ file, field, problem: expect.stringMatching(problem) as string }),
      );
    const alike = 'commands.pause.say.3';
    expect(found).toContainEqual(
      expect.objectContaining({
        field: alike,
        problem: '"stock" (pause) sounds too much like "stop" (stop); word one of them otherwise',
      }),
    );
    expect(new Set(found.map(({ field }) => field))).toEqual(
      new Set([...cues.map(([, field]) => field), 'say.not-here', alike]),
    );
  });

  it('a reply that nobody can pronounce', () => {
    const folder = copyOfScripts();
    change(folder, 'vocabulary.yaml', 'say: [pause,', 'say: ["9",');
    const found = alikeProblems(readSources(folder, 'en'), loadBook(folder, 'en'), lexiconFor);
    expect(found[0]?.problem).toMatch(/No pronunciation for: 9/);
  });
});

describe('where there is nothing to read', () => {
  it('an unknown language lists the known ones', () => {
    expect(() => loadBook('scripts-cues', 'xx')).toThrow(/no scripts for "xx"; known: en/);
    expect(checkFolder('scripts-cues', 'xx')).toHaveLength(1);
  });

  it('a folder without scripts says what is needed', () => {
    const empty = mkdtempSync(join(tmpdir(), 'no-scripts-'));
    expect(() => loadBook(empty, 'en')).toThrow(/one folder for each language/);
    rmSync(empty, { recursive: true });
  });

  it('a missing file is named', () => {
    const folder = copyOfScripts();
    unlinkSync(join(folder, 'en/vocabulary.yaml'));
    expect(() => loadBook(folder, 'en')).toThrow(/vocabulary.yaml:1 is missing/);
  });

  it('an unusable book is never returned: every problem comes with the error', () => {
    const folder = copyOfScripts();
    change(folder, HINGE, 'sets: 3', 'sets: 0');
    try {
      loadBook(folder, 'en');
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(CueError);
      expect((error as CueError).problems.map(({ field }) => field)).toEqual(['dose.sets']);
      expect((error as CueError).message).toMatch(/bell-hinge.yaml:\d+ dose.sets: must be/);
    }
  });
});
