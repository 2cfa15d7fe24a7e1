// @vitest-environment jsdom
import { fireEvent, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { ElsewhereState } from '../../src/screens/people/elsewhere';
import { faultsOfPage, show } from './rendering';

const ELSEWHERE: ElsewhereState = {
  ...{ session: 'mon', person: null, routine: 'hinge', phase: 'listening' },
  step: { type: 'step', prompt: 'check/hinge-bar', side: null, set: null, of: null, rung: null },
  ...{
    cue: 'What did you find?',
    heard: 'clean',
    mayGoOnHere: true,
    isAsked: false,
    trouble: null,
  },
};
const card = () => within(screen.getByRole('region', { name: 'A session runs in another tab' }));

it.each(['people', 'gate'] as const)('at the %s, what another tab does is shown', async (where) => {
  show({ where, elsewhere: ELSEWHERE });
  for (const words of [/^Hinge\. It has the microphone/, /Hinge with the bar/, 'Say it now']) {
    card().getByText(words);
  }
  card().getByText('What did you find?');
  card().getByText('“clean”');
  expect(await faultsOfPage()).toEqual([]);
});

it('it goes on here, or is stopped there', () => {
  const seat = show({ where: 'people', elsewhere: ELSEWHERE });
  fireEvent.click(card().getByRole('button', { name: 'Go on here' }));
  fireEvent.click(card().getByRole('button', { name: 'Stop' }));
  expect(seat.did).toEqual([['goOnHere'], ['stopElsewhere']]);
});

it('while the other tab lets go nothing is asked twice, and what it says is told at once', () => {
  show({ where: 'people', elsewhere: { ...ELSEWHERE, isAsked: true, trouble: 'It is full.' } });
  const button = card().getByRole<HTMLButtonElement>('button', { name: 'Go on here' });
  expect(button.disabled).toBe(true);
  expect(card().getByRole('alert').textContent).toMatch('It is full.');
});

it('one of a squad day is only followed', () => {
  show({ where: 'people', elsewhere: { ...ELSEWHERE, mayGoOnHere: false } });
  expect(card().queryByRole('button', { name: 'Go on here' })).toBeNull();
  card().getByRole('button', { name: 'Stop' });
});
