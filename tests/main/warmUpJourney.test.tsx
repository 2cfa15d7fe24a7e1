// @vitest-environment jsdom
import { act, cleanup, configure, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { createHands } from '../../src/ear/hands';
import { App } from '../../src/screens/App';
import type { Seat } from '../../src/screens/seat';
import { fakeSeat } from '../screens/fakeSeat';
import { book, place, until } from './warmUpStand';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });
afterEach(cleanup);

/** The app with a group's place behind it, on a virtual clock, from the first screen to the choice. */
async function open() {
  const hands = createHands();
  const at = place({ attend: (prompt) => hands.attend(prompt) });
  hands.listen(at.tell);
  const { store, warmUp } = at;
  const seat: Seat = {
    ...fakeSeat(),
    ...{ state: store.state, subscribe: store.subscribe, warmUp },
    reply: (reply) => hands.reply(reply),
    key: (event) => void hands.key(event),
    nowSeconds: () => warmUp.nowSeconds() ?? 0,
  };
  render(<App seat={seat} />);
  press('Warm up a group');
  await screen.findByText(/before the bar, \d/);
  const pass = (seconds: number) => act(() => at.clock.advance(seconds * 1000));
  const begin = async (how: RegExp) => {
    press(how);
    await until(() => at.shown()?.stage === 'running');
    pass(0.1);
    await screen.findByRole('heading', { level: 1 });
  };
  const hear = (text: string) => act(() => at.hear(text));
  const key = (name: string) => act(() => void fireEvent.keyDown(window, { key: name }));
  return { ...at, pass, begin, hear, key };
}
const heading = () => document.querySelector('h1')?.textContent ?? '';
function press(name: string | RegExp) {
  fireEvent.click(screen.getByRole('button', { name }));
}
/** Past the welcome, into the work of the second turn. */
const INTO_SECOND = 100;
const whole = (offers: { seconds: number }[]) => offers[0]!.seconds;

describe('a whole warm-up, from the first screen to its end', () => {
  it('nobody says a word: every turn comes in its order, and it ends when it was to', async () => {
    const at = await open();
    const seconds = whole(at.shown()!.offers);
    await at.begin(/begin by touch/);
    const seen: string[] = [];
    for (let passed = 0.1; passed < seconds - 1; passed += 1) {
      at.pass(1);
      if (seen.at(-1) !== heading()) seen.push(heading());
    }
    expect(seen).toEqual([
      'Welcome',
      'Long breaths out',
      ...['The wall hinge', 'The post squat', 'The wall slide'],
      ...['The wall hinge', 'The post squat', 'The wall slide'],
      ...['The stick hinge', 'The stick press'],
    ]);
    expect(at.lines).toContain(book.lines['group.five-seconds']);
    expect(at.lines).toContain(book.lines['group.halfway']);
    at.pass(2);
    expect(heading()).toBe('The warm-up is over');
    await screen.findByText('All of it was done.');
    press('To the start');
    expect(at.store.state().where).toBe('people');
  });

  it('led by voice: hold on, go on, one more, skip, go back, and stop', async () => {
    const at = await open();
    await at.begin(/begin by voice/);
    at.pass(INTO_SECOND);
    expect(heading()).toBe('The wall hinge');
    at.hear('hold on');
    expect(heading()).toBe('Held');
    at.pass(60);
    expect(heading()).toBe('Held');
    at.hear('go on');
    expect(heading()).toBe('The wall hinge');
    at.hear('skip');
    expect(heading()).toBe('The post squat');
    at.hear('go back');
    expect(heading()).toBe('The wall hinge');
    at.pass(30);
    at.hear('one more');
    expect(at.shown()?.turn?.number).toBe(2);
    at.pass(30);
    at.hear('stop');
    expect(heading()).toBe('Stopped: end it?');
    at.pass(8);
    at.hear('no');
    expect(heading()).toBe('Held');
    at.hear('stop');
    at.pass(8);
    at.hear('yes');
    expect(heading()).toBe('The warm-up is over');
    await screen.findByText('It was stopped before its end.');
  });

  it('led by the keys of a remote: one goes on, one goes back, Escape stops', async () => {
    const at = await open();
    await at.begin(/begin by touch/);
    at.pass(30);
    expect(heading()).toBe('Long breaths out');
    at.key('PageDown');
    expect(heading()).toBe('The wall hinge');
    at.pass(20);
    at.key('PageUp');
    expect(heading()).toBe('Long breaths out');
    at.key('p');
    expect(heading()).toBe('Held');
    at.key('PageDown');
    expect(heading()).toBe('Long breaths out');
    at.key('Escape');
    expect(heading()).toBe('Stopped: end it?');
    at.pass(8);
    at.key('y');
    expect(heading()).toBe('The warm-up is over');
  });
});
