import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { difference } from './difference';
import { book, bookFor, NAMES, run, sessionOf, timelinePath, written } from './sessions';

const RULES = readFileSync(
  fileURLToPath(new URL('../../src/domain/deciding/RULES.md', import.meta.url)),
  'utf8',
);

it('every file of replies is a session of the table, and the other way round', () => {
  expect(written().sort()).toEqual([...NAMES].sort());
});

describe.each(NAMES)('%s', (name) => {
  const { text, timeline, said, all } = sessionOf(name);

  it('is told as it is written down (npx tsx tests/timelines/write.ts writes it anew)', () => {
    const path = timelinePath(name);
    const kept = existsSync(path) ? readFileSync(path, 'utf8') : '';
    expect(difference(kept, text)).toBe('');
  });

  it('never speaks two lines at once, and time never falls', () => {
    for (const [index, { fromSeconds }] of said.entries()) {
      // A timer may come a rounding error early.
      expect(fromSeconds).toBeGreaterThan((said[index - 1]?.toSeconds ?? 0) - 0.001);
    }
    for (const [index, { atSeconds }] of timeline.entries()) {
      expect(atSeconds).toBeGreaterThanOrEqual(timeline[index - 1]?.atSeconds ?? 0);
    }
  });

  it('says nothing that takes ten seconds, and no line twice in a row', () => {
    for (const { text: line, seconds } of all('cue')) {
      expect(seconds, line).toBeLessThan(10);
    }
    const lines = said.map(({ text: line }) => line).filter((line) => line.includes(' '));
    const repeated = lines.filter((line, index) => line === lines[index - 1]);
    // Silence is the one reason to ask the same again, and a breath to be cued again.
    const { checks, drills } = bookFor(name);
    const asked = [...Object.values(checks), ...Object.values(drills)].map(({ ask }) => ask);
    expect(repeated.filter((line) => !asked.includes(line) && !/breathe/i.test(line))).toEqual([]);
  });

  it('gives a reason of RULES.md for every decision', () => {
    for (const { rule, because } of all('decision')) {
      expect(RULES).toContain(`**${rule}**`);
      expect(because).not.toBe('');
    }
  });

  it('takes nothing as a finding that was not heard as one', () => {
    const events = timeline.filter(({ type }) => type === 'heard' || type === 'finding');
    events.forEach((event, index) => {
      if (event.type !== 'finding') return;
      const before = events.slice(0, index).findLast(({ type }) => type === 'heard');
      expect(before).toMatchObject({ type: 'heard', atSeconds: event.atSeconds });
      expect(before).not.toMatchObject({ verdict: 'ignore' });
    });
  });

  it('loads nothing in squat or hinge after pain above the line in either', () => {
    const isHigh = (pain: unknown) => typeof pain === 'number' && pain > 5;
    const referred = timeline.findIndex(
      (event) =>
        event.type === 'outcome' && event.outcome === 'referred' && event.area !== 'overhead',
    );
    const numbers = sessionOf(name).entries.filter(
      (entry) => 'pain' in entry && isHigh(entry.pain),
    );
    expect(referred >= 0).toBe(numbers.length > 0);
    const after = timeline.slice(referred < 0 ? timeline.length : referred);
    for (const event of after) {
      if (event.type !== 'step') continue;
      const id = event.prompt.replace(/^.*\//, '');
      const script = book.checks[id] ?? book.drills[id];
      expect(script?.area === 'overhead' || script?.loaded === false, id).toBe(true);
    }
  });

  it('ends with every area, last of all', () => {
    expect(timeline.at(-1)?.type).toBe('end');
    const areas = new Set(all('outcome').map(({ area }) => area));
    for (const { area } of sessionOf(name).end.areas) expect(areas).toContain(area);
  });
});

it('is the same byte for byte when it is run again', () => {
  expect(run('three-areas').text).toBe(sessionOf('three-areas').text);
});

describe('the difference of two timelines', () => {
  it('is empty where there is none', () => {
    expect(difference('one\ntwo\n', 'one\ntwo\n')).toBe('');
  });

  it('shows the place, what was kept and what came', () => {
    const shown = difference('a\nb\nc\nd\n', 'a\nb\nx\nd\n');
    expect(shown).toBe('from line 3 on:\n  a\n  b\n- c\n- d\n- \n+ x\n+ d\n+ ');
  });

  it('shows a line that is missing at the end, and lines that are too many', () => {
    expect(difference('a\nb', 'a')).toContain('- b');
    expect(difference('a', 'a\nb')).toContain('+ b');
  });
});
