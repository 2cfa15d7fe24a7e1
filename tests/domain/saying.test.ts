import { describe, expect, it } from 'vitest';
import { say } from '../../src/domain/saying';

const lines = { 'say.left': 'About {minutes} minutes, {name}.', 'say.quiet': '' };

describe('a sentence by its key', () => {
  it('with its placeholders filled in', () => {
    expect(say(lines, 'say.left', { minutes: 4, name: '{minutes}' })).toBe(
      'About 4 minutes, {minutes}.',
    );
    expect(say(lines, 'say.quiet', {})).toBe('');
  });

  it.each(['say.gone', 'constructor'])('%s: no such sentence', (key) => {
    expect(() => say(lines, key, {})).toThrow(`No sentence "${key}"`);
  });

  it('is never spoken with a hole in it', () => {
    expect(() => say(lines, 'say.left', { minutes: 4 })).toThrow(/needs a value for \{name\}/);
  });
});
