// @vitest-environment jsdom
import { cleanup, configure, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { App } from '../../src/screens/App';
import type { RecordState } from '../../src/screens/record/state';
import { fakeSeat } from './fakeSeat';
import { faultsOfPage } from './rendering';

// Screens that come in files of their own take seconds on a busy machine.
configure({ asyncUtilTimeout: 15_000 });
afterEach(cleanup);

const STATE: RecordState = { isSavingDue: false, lasting: null, damage: null };
const open = async (change: Partial<RecordState> = {}, answer: string | null = null) => {
  const seat = fakeSeat({ where: 'record', record: { ...STATE, ...change } }, answer);
  render(<App seat={seat} />);
  await screen.findByRole('heading', { name: 'The record' });
  return seat;
};
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const choose = (text: string, name = 'sayso-record.json') =>
  fireEvent.change(screen.getByLabelText(/^Choose (a file|again)$/), {
    target: { files: [new File([text], name)] },
  });

describe('from the first screen', () => {
  it('it is one tap away, and asked for where sessions are on this device alone', async () => {
    const seat = fakeSeat({ where: 'people', record: { ...STATE, isSavingDue: true } });
    render(<App seat={seat} />);
    await screen.findByText(/are on this device alone/);
    press(/^The record/);
    expect(seat.did).toContainEqual(['record']);
  });

  it('nothing is asked for where it was saved', () => {
    render(<App seat={fakeSeat({ where: 'people' })} />);
    expect(screen.queryByText(/are on this device alone/)).toBeNull();
  });
});

describe('the whole record', () => {
  it('is saved in a file with one tap, and says which', async () => {
    const seat = await open({ lasting: 'This browser has promised to keep the record.' });
    screen.getByText('This browser has promised to keep the record.');
    press('Save it in a file');
    await screen.findByText(/Saved as sayso-record-2031-03-08.json\./);
    expect(seat.did).toContainEqual(['saveRecord', null]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it('is locked where that is wanted, with no back door, which is said', async () => {
    const seat = await open();
    fireEvent.click(screen.getByLabelText('Lock the file with a passphrase'));
    screen.getByText(/Without it nobody can open the file, nor can Sayso/);
    fireEvent.change(screen.getByLabelText('Passphrase'), {
      target: { value: 'heavy green boats' },
    });
    press('Save it in a file');
    await screen.findByText(/Saved as/);
    expect(seat.did).toContainEqual(['saveRecord', 'heavy green boats']);
  });

  it('that cannot be saved says why, and nothing is called saved', async () => {
    await open({}, 'The file could not be made. Nothing has changed; try it again.');
    press('Save it in a file');
    await screen.findByText(/could not be made/);
    expect(screen.queryByText(/Saved as/)).toBeNull();
  });

  it('shows what is damaged, and what mends it', async () => {
    await open({ damage: ['Session ago, entry ago:phone:7.'] });
    screen.getByText('Session ago, entry ago:phone:7.');
    screen.getByText(/A file that was saved before mends them/);
  });
});

describe('a record that is brought in', () => {
  it('tells what it would change before anything is changed, and one tap brings it in', async () => {
    const seat = await open();
    choose('123');
    await screen.findByText('sayso-record.json would bring:');
    screen.getByText('3 sessions are new');
    expect(seat.did.map(([what]) => what)).not.toContain('bringIn');
    press('Bring it in');
    await screen.findByText('It is in. What came:');
    screen.getByText('1 note is new');
    expect(seat.did.at(-1)).toEqual(['bringIn']);
  });

  it('wants the passphrase of a locked one, and tells a wrong one', async () => {
    await open();
    choose('locked');
    await screen.findByText('sayso-record.json is locked.');
    fireEvent.change(screen.getByLabelText('Passphrase'), { target: { value: 'wrong' } });
    press('Open it');
    await screen.findByText('This passphrase does not open the file.');
    fireEvent.change(screen.getByLabelText('Passphrase'), {
      target: { value: 'two plus two is' },
    });
    press('Open it');
    await screen.findByText('1 athlete is new');
    screen.getByText('2 athletes were deleted here and stay deleted');
  });

  it('that has nothing new says so and offers nothing', async () => {
    await open();
    choose('');
    await screen.findByText('Everything in sayso-record.json is here already.');
    expect(screen.queryByRole('button', { name: 'Bring it in' })).toBeNull();
  });

  it('that is refused says where and why', async () => {
    await open({}, 'sessions[3].entries[17].atSeconds must be a number.');
    choose('{}');
    await screen.findByText(/sessions\[3\]\.entries\[17\]\.atSeconds/);
    expect(screen.queryByRole('button', { name: 'Bring it in' })).toBeNull();
  });
});
