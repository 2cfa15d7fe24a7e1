// @vitest-environment jsdom
import { cleanup, configure, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { LockScreen } from '../../src/screens/lock/LockScreen';
import { faultsOfPage, show } from './rendering';

configure({ asyncUtilTimeout: 15_000 });
afterEach(cleanup);

const OFF = { isOn: false, afterMinutes: 15, left: null, trouble: null } as const;
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const type = (label: string, value: string) =>
  fireEvent.change(screen.getByLabelText(label), { target: { value } });

describe('a locked page', () => {
  it('says so, that there is no other way in, and opens with the passphrase alone', async () => {
    const typed: string[] = [];
    const open = async (passphrase: string) => {
      typed.push(passphrase);
      return passphrase === 'kettle under violet' ? null : 'This passphrase does not open it.';
    };
    render(<LockScreen open={open} />);
    expect(document.activeElement).toBe(screen.getByRole('heading', { name: 'Sayso is locked' }));
    screen.getByText(/Nobody can open it without the passphrase; there is no other way in/);
    type('Passphrase', 'kettle');
    press('Open it');
    await screen.findByText('This passphrase does not open it.');
    expect(await faultsOfPage()).toEqual([]);
    type('Passphrase', 'kettle under violet');
    press('Open it');
    await screen.findByRole('button', { name: 'Open it' });
    expect(screen.queryByText('This passphrase does not open it.')).toBeNull();
    expect(typed).toEqual(['kettle', 'kettle under violet']);
  });
});

describe('the lock on the page of the record', () => {
  const shown = async (lock: object = {}, answer: string | null = null) => {
    const seat = show({ where: 'record', lock: { ...OFF, ...lock } }, answer);
    await screen.findByRole('heading', { name: 'Lock the record on this device' });
    return seat;
  };

  it('says first that there is no way back, then asks twice', async () => {
    const seat = await shown();
    screen.getByText(/there is no other way in. If it is forgotten, what is here is lost/);
    fireEvent.click(screen.getByText('Choose a passphrase'));
    type('New passphrase', 'seven quiet boats');
    type('New passphrase once more', 'seven quiet goats');
    press('Lock the record');
    await screen.findByText(/The two are not the same/);
    expect(seat.did).toEqual([]);
    type('New passphrase once more', 'seven quiet boats');
    press('Lock the record');
    await screen.findByText('', { selector: 'form p[role=status]' });
    expect(seat.did).toEqual([['lock', 'seven quiet boats']]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it('shows why it was not done, and keeps what was typed', async () => {
    await shown({}, 'A passphrase has at least 12 letters; this has 3.');
    fireEvent.click(screen.getByText('Choose a passphrase'));
    type('New passphrase', 'abc');
    type('New passphrase once more', 'abc');
    press('Lock the record');
    await screen.findByText(/has at least 12 letters/);
    expect(screen.getByLabelText<HTMLInputElement>('New passphrase').value).toBe('abc');
  });

  it('is locked now, later, changed and taken off', async () => {
    const seat = await shown({ isOn: true });
    fireEvent.click(screen.getByLabelText('5 minutes'));
    press('Lock now');
    for (const list of document.querySelectorAll('details')) list.open = true;
    type('Passphrase until now', 'seven quiet boats');
    type('New passphrase', 'kettle under violet');
    type('New passphrase once more', 'kettle under violet');
    press('Change it');
    await screen.findByText('From now on the new passphrase opens it.');
    const off = screen.getByText('Take the lock off').closest('details')!;
    fireEvent.change(within(off).getByLabelText('Passphrase'), {
      target: { value: 'kettle under violet' },
    });
    press('Take it off');
    await screen.findByText('The lock is coming off.');
    expect(seat.did).toEqual([
      ['lockAfter', 5],
      ['lockNow'],
      ['changePassphrase', 'seven quiet boats', 'kettle under violet'],
      ['takeLockOff', 'kettle under violet'],
    ]);
    expect(await faultsOfPage()).toEqual([]);
  });

  it('tells how much is still to be written anew', async () => {
    await shown({ isOn: true, left: 1500 });
    screen.getByText(/Writing the record anew: 1500 to go. The page may be closed/);
  });

  it('is one tap away on the first screen, where there is one', async () => {
    show({ where: 'people', lock: { ...OFF, isOn: true } });
    await screen.findByRole('button', { name: 'Lock now' });
    show({ where: 'people', lock: OFF });
    await screen.findByRole('button', { name: /^The record/ });
    expect(screen.queryByRole('button', { name: 'Lock now' })).toBeNull();
  });
});
