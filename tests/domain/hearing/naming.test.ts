import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../src/cli/verb';
import { understand } from '../../../src/domain/hearing/understanding';
import { DEFAULT_SETTINGS } from '../../../src/domain/log';

// The shipped scripts: every name in them must be sayable.
const book = bookOf();
const scripts = [...Object.values(book.checks), ...Object.values(book.drills)];
const hear = (at: string, text: string) =>
  understand(book, at, text, { ...DEFAULT_SETTINGS, confidence: 1 });
const promptsIn = (area: string) => [
  ...Object.values(book.checks).flatMap((one) => (one.area === area ? [`check/${one.id}`] : [])),
  ...Object.values(book.drills).flatMap((one) => (one.area === area ? [`set/${one.id}`] : [])),
];

describe('a check or drill', () => {
  it.each(scripts.map(({ id, name, area }) => [name, id, area]))(
    '"%s" is reached by its name, with and without "the", at every prompt of its area and early',
    (name, id, area) => {
      const bare = name.replace(/^the /, '');
      expect(bare).not.toBe(name);
      for (const at of [...promptsIn(area), 'idle'])
        for (const text of [
          `go to ${name}`,
          `go back to ${name}`,
          `skip to ${bare}`,
          `let's do ${name}`,
          `back to ${bare} please`,
          `take him to ${name}`,
          `go to ${id.replaceAll('-', ' ')}`,
        ])
          expect(hear(at, text), `${text} at ${at}`).toMatchObject({
            verdict: 'accept',
            reply: { command: 'go-to', target: id },
          });
    },
  );

  it.each([
    ['go to the RDL', 'romanian-deadlift'],
    ['skip to the romanian', 'romanian-deadlift'],
    ['back to the front rack', 'squat-front-rack'],
    ['skip to overhead standing', 'overhead-active-standing'],
    ['go to overhead lying', 'overhead-active-lying'],
    ['go to the half kneeling', 'half-kneeling-press'],
    ["let's go to the goblet", 'goblet-squat'],
    ['bring it back to the walkout', 'hands-knees-walkout'],
    ['go to the pullover', 'lying-pullover'],
    ['put him on the supported hang', 'supported-hang'],
    ['go to the hang', 'supported-hang'],
    ['go back to the plate squat', 'plate-reach-squat'],
    ['skip to the deadlift', 'deadlift'],
    ['back to the bell hinge', 'bell-hinge'],
  ])('is reached by its short name: "%s"', (text, target) => {
    expect(hear('idle', text)).toMatchObject({
      verdict: 'accept',
      reply: { command: 'go-to', target },
    });
  });

  it.each(['go to the press', 'back to the squat', 'skip to the hinge'])(
    'that several could be is asked about: "%s"',
    (text) => {
      expect(hear('idle', text)).toMatchObject({
        verdict: 'confirm',
        reply: { command: 'go-to', target: null },
        readback: 'go to which one',
      });
    },
  );

  it('that several areas have is that of the area at hand', () => {
    const target = (at: string) => hear(at, 'go to the two bell').reply?.target;
    expect(target('set/goblet-squat')).toBe('two-bell-front-squat');
    expect(target('set/deadlift')).toBe('two-bell-romanian-deadlift');
    expect(target('idle')).toBeNull();
  });

  it.each([
    'do a squat',
    'do the press',
    'start with the hinge',
    'go to the bar',
    'go to the floor',
    'go for the press',
    'back to the wall',
    'over to the bench',
  ])('is not meant by words to the athlete: "%s"', (text) => {
    expect(hear('idle', text).reply?.command ?? null).not.toBe('go-to');
  });
});

describe('overruling by natural words', () => {
  it.each([
    ['lighter', 'lighter'],
    ['make it lighter', 'lighter'],
    ['go lighter please', 'lighter'],
    ['take some weight off', 'lighter'],
    ['heavier', 'heavier'],
    ['make it heavier', 'heavier'],
    ['one more set', 'again'],
    ['another set', 'again'],
    ['one more', 'again'],
    ['redo that', 'again'],
    ['do that one more time', 'again'],
    ['skip this one', 'skip'],
    ['next drill', 'next'],
    ['move on', 'next'],
    ['go back a step', 'back'],
    ['back a step', 'back'],
  ])('"%s" is %s', (text, command) => {
    for (const at of ['idle', 'set/goblet-squat', 'check/squat-front-rack'])
      expect(hear(at, text), at).toMatchObject({ verdict: 'accept', reply: { command } });
  });
});
