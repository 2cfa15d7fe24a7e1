// @vitest-environment jsdom
import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { loadBook } from '../../src/cues/fromFolder';
import { demoOf } from '../../src/domain/warmUp/own';
import type { WarmUp } from '../../src/domain/warmUp/warmUp';
import { App } from '../../src/screens/App';
import { fakeSeat } from './fakeSeat';
import { faultsOfPage } from './rendering';

configure({ asyncUtilTimeout: 15_000 });
afterEach(cleanup);

const book = loadBook('scripts-cues', 'en');
const NEW: WarmUp = { id: '', name: '', parts: [] };

async function open(building: WarmUp = NEW, answer: string | null = null) {
  const seat = fakeSeat(
    {
      ...{ where: 'warmUp', book },
      warmUp: {
        ...{ stage: 'building', chosen: null, turn: null, isHeld: false, asksEnd: false },
        ...{ endsAtMilliseconds: null, ended: null, trouble: null, listen: 'hands', offers: [] },
        ...{ wanted: null, building, sound: null, told: null },
      },
    },
    answer,
  );
  render(<App seat={seat} />);
  await screen.findByRole('heading', { level: 1, name: /warm-up$/ });
  return seat;
}
/** By its name as it is read out; looking for roles takes long on a page of so many fields. */
const button = (name: string): HTMLButtonElement => {
  const found = [...document.querySelectorAll('button')].filter(
    (each) => (each.getAttribute('aria-label') ?? each.textContent).trim() === name,
  );
  if (found.length !== 1) throw new Error(`${found.length} buttons are called “${name}”.`);
  return found[0]!;
};
const press = (name: string) => fireEvent.click(button(name));
const type = (label: string | RegExp, value: string) =>
  fireEvent.change(screen.getByLabelText(label), { target: { value } });
/** Types a block and presses Enter. */
const add = (typed: string, part = 0) => {
  const form = [...document.querySelectorAll<HTMLFormElement>('form.add-block')][part]!;
  fireEvent.change(within(form).getByLabelText(/type its drill/), { target: { value: typed } });
  fireEvent.submit(form);
};
const blocks = () =>
  [...document.querySelectorAll('.blocks h3')].map(({ textContent }) =>
    textContent.replace(/^\d+\. /, ''),
  );
const kept = (seat: Awaited<ReturnType<typeof open>>) =>
  seat.did.find(([what]) => what === 'keepWarmUp')?.[1] as WarmUp | undefined;

describe('a warm-up is built', () => {
  it('from typed blocks and breaths, its time told as it grows, and kept as it stands', async () => {
    const seat = await open();
    screen.getByText(/How long it takes is told once nothing is missing/);
    type('Name', 'the one of Monday');
    add('wall hinge 25 10');
    screen.getByText(/It takes 1 minute .* 1 turn\./);
    press('Add long breaths out');
    screen.getByText(/It takes 2 minutes .* 2 turns\./);
    type('Rounds', '2');
    screen.getByText(/4 turns\./);
    press('Keep it on this device');
    const hinge = book.drills['wall-hinge']!;
    expect(kept(seat)).toEqual({
      ...{ id: '', name: 'the one of Monday' },
      parts: [
        {
          ...{ arrangement: 'together', rounds: 2 },
          blocks: [
            {
              ...{ do: 'work', drill: 'wall-hinge', demo: demoOf(hinge) },
              ...{ workSeconds: 25, changeSeconds: 10 },
            },
            {
              ...{ do: 'breathe', name: 'long breaths out', breaths: 5, exhaleSeconds: 6 },
              demo: expect.stringMatching(/^Lie on your back/) as string,
              changeSeconds: 15,
            },
          ],
        },
      ],
    });
    expect(await faultsOfPage()).toEqual([]);
  });

  it('at stations: what so many people need at each, whether they fit, and a card of each', async () => {
    const seat = await open();
    type('Name', 'my stations');
    fireEvent.click(screen.getByLabelText('At stations'));
    add('stick press');
    add('wall hinge');
    screen.getByText('12 people at 2 stations: 6 at each.');
    screen.getByText(/^Station 1: 6 × a light stick/);
    screen.getByRole('heading', { name: 'Station 2: the wall hinge' });
    type('People in the group', '20');
    screen.getByText(/10 at one station are more than one leader sees to: 8 at most\. Make it 3/);
    press('Keep it on this device');
    expect(kept(seat)?.parts).toMatchObject([
      { arrangement: 'stations', rounds: 1, workSeconds: 30, changeSeconds: 15 },
    ]);
  });

  it('blocks are taken up and down, done once more and taken out; the keyboard stays with them', async () => {
    await open();
    for (const typed of ['wall hinge', 'post squat', 'wall slide']) add(typed);
    const down = button('The wall hinge down');
    down.focus();
    fireEvent.click(down);
    expect(blocks()).toEqual(['The post squat', 'The wall hinge', 'The wall slide']);
    screen.getByText('The wall hinge is now 2 of 3.');
    await new Promise(requestAnimationFrame);
    expect(document.activeElement?.getAttribute('aria-label')).toBe('The wall hinge down');
    press('The wall slide up');
    press('Once more: The post squat');
    expect(blocks()).toEqual([
      'The post squat',
      'The post squat',
      'The wall slide',
      'The wall hinge',
    ]);
    press('Take out: The wall hinge');
    expect(document.activeElement?.textContent).toBe('Part 1');
    expect(blocks()).toEqual(['The post squat', 'The post squat', 'The wall slide']);
    expect(button('The wall slide down').disabled).toBe(true);
  });

  it('a block is dragged to its place', async () => {
    await open();
    for (const typed of ['wall hinge', 'post squat', 'wall slide']) add(typed);
    const items = [...document.querySelectorAll<HTMLElement>('.blocks > li')];
    items.forEach((item, at) => {
      item.getBoundingClientRect = () => ({ top: at * 100, height: 100 }) as DOMRect;
    });
    const handle = items[0]!.querySelector<HTMLElement>('.handle')!;
    handle.setPointerCapture = () => undefined;
    window.scrollBy = () => undefined;
    fireEvent.pointerDown(handle, { button: 0, clientY: 150, pointerId: 1 });
    fireEvent.pointerMove(handle, { clientY: 270, pointerId: 1 });
    expect(items[2]!.className).toBe('drop-after');
    fireEvent.pointerUp(handle, { pointerId: 1 });
    expect(blocks()).toEqual(['The post squat', 'The wall slide', 'The wall hinge']);
  });

  it.each([
    ['Work (seconds)', '45', 'It must be 20 to 40 seconds.'],
    ['Work (seconds)', 'ten', 'It must be 20 to 40 seconds.'],
    ['Change before it (seconds)', '', 'It must be 10 to 20 seconds.'],
    ['Rounds', '9', 'It must be a whole number, 1 to 4.'],
    ['Name', 'hello \u202Eolleh', /cannot be seen \(U\+202E\)/],
    ['Name', 'x'.repeat(201), /too long to be one spoken idea/],
    ['Said as it is shown', 'Stop.', /heard as a reply: stop/],
    ['Said as it is shown', 'Bend and stand, '.repeat(12), /s to say; less than 10 s/],
  ])(
    '%s: "%s" is marked at its field, nothing is kept and nothing is lost',
    async (label, value, wrong) => {
      const seat = await open();
      type('Name', 'mine');
      add('wall hinge');
      type(label, value);
      screen.getByText(wrong);
      press('Keep it on this device');
      screen.getByText(/It is not kept yet: mend what is marked/);
      expect(kept(seat)).toBeUndefined();
      await new Promise(requestAnimationFrame);
      expect(document.activeElement).toBe(screen.getByLabelText(label));
      expect(screen.getByLabelText(label)).toHaveProperty('value', value);
    },
  );

  it('without a name and a block nothing is wrong until it is to be kept', async () => {
    const seat = await open();
    expect(screen.queryByText(/^It (must not be empty|needs)/)).toBeNull();
    press('Keep it on this device');
    screen.getByText('It must not be empty.');
    screen.getByText('It needs at least one block.');
    expect(kept(seat)).toBeUndefined();
  });

  it('a drill that there is none of is told, and long breaths keep a part together', async () => {
    await open();
    type(/type its drill/, 'trampoline');
    screen.getByText('No drill has that in its name. Type less of it.');
    press('Add long breaths out');
    expect(screen.queryByLabelText('At stations')).toBeNull();
    screen.getByText(/Long breaths are for everybody together/);
  });

  it('where the device keeps nothing, it says so and all stays as it is', async () => {
    const full = 'There is no room left on this device, so it was not kept.';
    await open(NEW, full);
    type('Name', 'mine');
    add('wall hinge');
    press('Keep it on this device');
    await screen.findByText(full);
    expect(blocks()).toEqual(['The wall hinge']);
  });
});

describe('one that is there is changed', () => {
  it('stands there whole, and unchanged it is kept as it was', async () => {
    const warmUp = { ...book.warmUps['before-the-bar']!, id: 'mine' };
    const seat = await open(warmUp);
    screen.getByRole('heading', { name: 'Change a warm-up' });
    press('Keep it on this device');
    expect(kept(seat)).toEqual(warmUp);
  });

  it('left unchanged it goes back at once; changed, only after a question', async () => {
    const seat = await open({ ...book.warmUps['four-stations']!, id: 'mine' });
    press('Group warm-up');
    expect(seat.did).toContainEqual(['leaveBuilder']);
    seat.did.length = 0;
    type('Name', 'another');
    press('Group warm-up');
    expect(seat.did).toEqual([]);
    press('Go on building');
    press('Group warm-up');
    press('Leave it');
    expect(seat.did).toEqual([['leaveBuilder']]);
  });

  it('a part is added at stations, taken before the other, and taken out', async () => {
    const seat = await open({ ...book.warmUps['before-the-bar']!, id: 'mine' });
    press('Add a part at stations');
    add('wall hinge', 3);
    add('post squat', 3);
    press('Part 4 up');
    press('Take out part 1');
    press('Keep it on this device');
    expect(kept(seat)?.parts.map(({ arrangement }) => arrangement)).toEqual([
      'together',
      'stations',
      'together',
    ]);
  });
});
