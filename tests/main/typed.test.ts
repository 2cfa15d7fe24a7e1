import { expect, it } from 'vitest';
import { createTyped } from '../../src/main/typed';
import type { Hearing } from '../../src/ports';

it('typed words are heard for sure, at the prompt that is open', () => {
  const typed = createTyped();
  const heard: Hearing[] = [];
  const leave = typed.listen((hearing) => heard.push(hearing));
  typed.type('para');
  typed.attend('set/bell-hinge');
  typed.type('rodillas adelante');
  typed.type('  ');
  leave();
  typed.type('pasa');
  expect(heard).toEqual([
    { type: 'words', text: 'para', confidence: 1, prompt: 'idle' },
    { type: 'words', text: 'rodillas adelante', confidence: 1, prompt: 'set/bell-hinge' },
  ]);
});
