// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from 'vitest';
import { isHandedOver, windowAddress } from '../../../src/main/homework/address';
import { createSending, type Outside } from '../../../src/main/homework/sending';
import type { Made } from '../../../src/main/homework/travelling';

const LINK = 'https://gym.example/#homework=ab';
const made = (link: string | null = LINK): Made => ({
  text: '{}',
  travels: { link, code: null, file: 'homework.json', sessions: null },
});
const outside = (has: Partial<Outside> = {}): Outside => ({
  ...{ copy: undefined, share: undefined, canShare: undefined, save: () => undefined },
  ...has,
});

describe('what is sent on', () => {
  it('is shared as its link, or as its file where it is too long for one', async () => {
    const shared: ShareData[] = [];
    const share = async (data: ShareData) => void shared.push(data);
    const sending = createSending(outside({ share, canShare: () => true }));
    expect(sending.offer(made()).canShare).toBe(true);
    await sending.share();
    expect(sending.offer(made(null)).canShare).toBe(true);
    await sending.share();
    expect(shared[0]).toEqual({ url: LINK });
    expect(shared[1]?.files?.[0]?.name).toBe('homework.json');
  });

  it('is not offered to be shared where the device cannot', () => {
    const share = () => Promise.resolve();
    expect(createSending(outside()).offer(made()).canShare).toBe(false);
    const refuses = outside({ share, canShare: () => false });
    expect(createSending(refuses).offer(made()).canShare).toBe(false);
  });

  it('says what to do where it was not handed on, and nothing to whoever changed their mind', async () => {
    const fails = (error: Error) => outside({ share: () => Promise.reject(error) });
    const broken = createSending(fails(new Error('no')));
    broken.offer(made());
    expect(await broken.share()).toMatch(/Copy the link, or save the file/);
    const closed = createSending(fails(Object.assign(new Error(), { name: 'AbortError' })));
    closed.offer(made());
    expect(await closed.share()).toBeNull();
  });

  it('says what to do where the page may not copy or save', async () => {
    const none = createSending(outside());
    expect(await none.copyLink()).toMatch(/Make it again/);
    none.offer(made());
    expect(await none.copyLink()).toMatch(/Mark the link and copy it/);
    const refused = createSending(
      outside({
        copy: () => Promise.reject(new Error('no')),
        save: () => {
          throw new Error('no');
        },
      }),
    );
    refused.offer(made());
    expect(await refused.copyLink()).toMatch(/Mark the link and copy it/);
    expect(await refused.saveFile()).toMatch(/could not be made/);
  });
});

describe('the address of the page', () => {
  afterEach(() => history.replaceState(null, '', '/'));

  it('tells of a link that is opened in the open page, and forgets it once it was taken', async () => {
    const address = windowAddress('http://localhost/');
    const changed = vi.fn();
    address.onChange(changed);
    location.hash = '#homework=ab';
    await vi.waitFor(() => expect(changed).toHaveBeenCalledOnce());
    expect(isHandedOver(address.hash())).toBe(true);
    address.clear();
    expect(location.href).toBe('http://localhost:3000/');
    expect(changed).toHaveBeenCalledOnce();
  });

  it.each(['#report=ab', '#HOMEWORK%3Dab'])('%s is something that was handed over', (hash) => {
    expect(isHandedOver(hash)).toBe(true);
  });

  it.each(['', '#', '#home', '#work=homework=ab'])('“%s” is not', (hash) => {
    expect(isHandedOver(hash)).toBe(false);
  });
});
