// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { secondsOf } from '../../src/cli/durations';
import { readWarmUp, warmUpText } from '../../src/main/warmUp/warmUpFile';
import type { WarmUp } from '../../src/domain/warmUp/warmUp';
import { book, CHOICE, emptyStorage, place, until } from './warmUpStand';

const KEY = 'sayso-warm-ups-en';
const MINE: WarmUp = {
  ...{ id: '', name: 'the one of Monday' },
  parts: [
    {
      ...{ arrangement: 'together', rounds: 1 },
      blocks: [
        {
          ...{ do: 'work', drill: 'wall-hinge', demo: 'Watch once.' },
          ...{ workSeconds: 20, changeSeconds: 10 },
        },
      ],
    },
  ],
};

/** At the choice of warm-ups, with what the device keeps. */
async function open(storage: Storage = emptyStorage()) {
  const at = place({ storage });
  at.warmUp.show();
  await until(() => (at.shown()?.offers.length ?? 0) > 0);
  return at;
}
const names = ({ shown }: Awaited<ReturnType<typeof open>>) =>
  shown()!.offers.flatMap(({ name, isOwn }) => (isOwn ? [name] : []));

describe('a warm-up of one’s own', () => {
  it('is kept, stands chosen, is there again, changed in its place, and is removed', async () => {
    const at = await open();
    expect(await at.warmUp.keep(MINE)).toBeNull();
    expect(at.shown()).toMatchObject({
      ...{ stage: 'choosing', wanted: 'the-one-of-monday' },
      told: '“the one of Monday” is kept on this device.',
    });
    expect(await at.warmUp.keep({ ...MINE, name: 'another' })).toBeNull();
    const again = await open(at.storage);
    expect(names(again)).toEqual(['the one of Monday', 'another']);
    expect(
      await again.warmUp.keep({ ...MINE, id: 'the-one-of-monday', name: 'the one of Tuesday' }),
    ).toBeNull();
    expect(names(again)).toEqual(['the one of Tuesday', 'another']);
    expect(await again.warmUp.remove('another')).toBeNull();
    expect(names(await open(at.storage))).toEqual(['the one of Tuesday']);
  });

  it('never takes the place of a shipped one, or of a routine', async () => {
    const at = await open();
    await at.warmUp.keep({ ...MINE, name: 'before the bar' });
    await at.warmUp.keep({ ...MINE, name: 'hinge' });
    expect(at.shown()!.offers.map(({ id }) => id)).toEqual([
      ...Object.keys(book.warmUps),
      'before-the-bar-2',
      'hinge-2',
    ]);
  });

  it('is led like any other', async () => {
    const at = await open();
    await at.warmUp.keep(MINE);
    at.warmUp.begin({ ...CHOICE, id: 'the-one-of-monday' });
    await until(() => at.shown()?.stage === 'running');
    at.clock.advance(1000);
    expect(at.lines[0]).toContain('Welcome to the one of Monday.');
    at.clock.advance(300_000);
    expect(at.shown()).toMatchObject({ stage: 'over', ended: 'completed' });
  });

  it('what was kept by another window meanwhile stays', async () => {
    const storage = emptyStorage();
    const [one, other] = [await open(storage), await open(storage)];
    await one.warmUp.keep(MINE);
    await other.warmUp.keep({ ...MINE, name: 'the one of Friday' });
    expect(names(other)).toEqual(['the one of Monday', 'the one of Friday']);
  });

  it.each([
    ['no JSON', '{', 0],
    ['another format', '{"format":"x","warmUps":[]}', 0],
    [
      'one that cannot be led among whole ones',
      JSON.stringify({
        format: 'sayso-warm-ups-1',
        warmUps: [
          { ...MINE, id: 'a' },
          { ...MINE, id: 'b', parts: [{ arrangement: 'together', rounds: 99, blocks: [] }] },
        ],
      }),
      1,
    ],
    [
      'a drill that is no more',
      JSON.stringify({ format: 'sayso-warm-ups-1', warmUps: [{ ...MINE, id: 'a', x: 1 }] }),
      0,
    ],
  ])('damaged (%s): set aside whole, said once, and the rest is there', async (_, text, whole) => {
    const storage = emptyStorage();
    storage.setItem(KEY, text);
    const at = await open(storage);
    expect(at.shown()?.trouble).toMatch(/could not be read\. They are set aside on this device/);
    expect(names(at)).toHaveLength(whole);
    expect(storage.getItem(`${KEY}-damaged`)).toBe(text);
    const again = await open(storage);
    expect(again.shown()?.trouble).toBeNull();
    expect(names(again)).toHaveLength(whole);
  });

  it.each([
    ['QuotaExceededError', /no room left/],
    ['SecurityError', /keeps nothing/],
  ])(
    'where the browser answers %s it says what to do, and the builder stays',
    async (name, say) => {
      const storage = emptyStorage();
      const at = await open(storage);
      at.warmUp.build(MINE);
      storage.setItem = () => {
        throw Object.assign(new Error('no'), { name });
      };
      expect(await at.warmUp.keep(MINE)).toMatch(say);
      expect(at.shown()).toMatchObject({ stage: 'building', building: MINE });
    },
  );

  it('where the browser refuses its storage the shipped ones are still offered', async () => {
    const storage = emptyStorage();
    storage.getItem = () => {
      throw new Error('refused');
    };
    const at = await open(storage);
    expect(at.shown()?.offers).toHaveLength(2);
    expect(at.shown()?.trouble).toMatch(/keeps nothing/);
  });

  it('in a language without warm-ups what is kept of another is left alone', async () => {
    const storage = emptyStorage();
    storage.setItem('sayso-warm-ups-es', 'kept');
    const at = place({ storage, of: { ...book, language: 'es', warmUps: {} } });
    at.warmUp.show();
    for (let turn = 0; turn < 50; turn += 1) await new Promise((next) => setTimeout(next, 0));
    expect(storage.getItem('sayso-warm-ups-es')).toBe('kept');
    expect(at.shown()?.offers).toEqual([]);
  });
});

describe('a file of a warm-up', () => {
  const file = (text: string, name = 'mine.yaml') => ({
    ...{ name, size: text.length, text: async () => text },
  });
  const read = (text: string) => readWarmUp(file(text), book, secondsOf);

  it('holds all of it, for every shipped one; JSON is taken too', async () => {
    for (const warmUp of Object.values(book.warmUps)) {
      expect(await read(warmUpText(warmUp))).toEqual({ warmUp });
      expect(await read(JSON.stringify(warmUp))).toEqual({ warmUp });
    }
  });

  it('comes beside the others under a name of its own, and twice only once', async () => {
    const at = await open();
    const text = warmUpText({ ...book.warmUps['before-the-bar']!, name: 'a changed one' });
    expect(await at.warmUp.bringIn(file(text) as File)).toBeNull();
    expect(at.shown()).toMatchObject({ wanted: 'before-the-bar-2' });
    expect(await at.warmUp.bringIn(file(text) as File)).toMatch(/is here already/);
    expect(names(at)).toEqual(['a changed one']);
  });

  const good = warmUpText({ ...MINE, id: 'mine' });
  it.each([
    ['{', /is no warm-up that can be led: line 1.*is not valid YAML/],
    ['just words', /line 1, the whole: must be a group of fields/],
    ['[]', /must be a group of fields/],
    [good.replace('20', '90'), /line 11, parts\.0\.blocks\.0\.workSeconds: must be 20 to 40/],
    [good.replace('wall-hinge', 'trampoline'), /there is no drill of that name/],
    [good.replace('Watch once.', 'Stop.'), /would itself be heard as a reply: stop/],
    [good.replace('Watch once.', '"\\u202Ehello"'), /cannot be seen \(U\+202E\)/],
    [good.replace('id: mine', 'id: mine\nscript: x'), /script: not known here; allowed: id, name/],
    [good.replace('id: mine', 'id: mine\nid: yours'), /is not valid YAML: .*unique/],
    [good.replace('id: mine', 'id: mine\n__proto__: {}'), /not known here|is no warm-up/],
    ['['.repeat(100_000), /could not be read as YAML|is not valid YAML/],
    [
      `a: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefgh'
        .split('')
        .map((name, at) => `${name}: &${name} [${Array(9).fill(`*${'abcdefgh'[at]}`).join(',')}]`)
        .join('\n')}`,
      /could not be read as YAML|not known here/,
    ],
  ])('that is none is told with its line: %#', async (text, say) => {
    expect(await read(text)).toEqual({ say: expect.stringMatching(say) as string });
  });

  it('that is too large is not even read', async () => {
    const large = { name: 'film.yaml', size: 3e6, text: () => Promise.reject(new Error('read')) };
    expect(await readWarmUp(large, book, secondsOf)).toEqual({
      say: 'film.yaml is too large to be a warm-up. Choose the file of one.',
    });
  });
});

describe('the sound file', () => {
  const saved: { name: string; size: number }[] = [];
  const { createObjectURL, revokeObjectURL } = URL;
  beforeEach(() => {
    saved.length = 0;
    let last: Blob | undefined;
    URL.createObjectURL = (blob) => {
      last = blob as Blob;
      return 'blob:x';
    };
    URL.revokeObjectURL = () => undefined;
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
      this: HTMLAnchorElement,
    ) {
      saved.push({ name: this.download, size: last?.size ?? 0 });
    });
  });
  afterEach(() => {
    Object.assign(URL, { createObjectURL, revokeObjectURL });
    vi.restoreAllMocks();
  });

  const silence = { samples: new Float32Array(100), sampleRate: 16_000 };
  const led = async (make: () => Promise<typeof silence>) => {
    const at = place({ synthesis: { make } });
    at.warmUp.show();
    await until(() => (at.shown()?.offers.length ?? 0) > 0);
    return at;
  };

  it('is as long as it was wanted, and what was left out of it is told', async () => {
    const at = await led(async () => silence);
    await at.warmUp.saveSound({ id: 'before-the-bar', minutes: 1 });
    // 16 bits a sample, the header, and a second to ring out.
    expect(saved).toEqual([{ name: 'before-the-bar.wav', size: 44 + 61 * 32_000 }]);
    expect(at.shown()).toMatchObject({
      ...{ sound: null, trouble: null },
      told: expect.stringMatching(
        /^before-the-bar\.wav is saved\. Left out: .*stick press/,
      ) as string,
    });
  });

  it('called off it is not saved, and another can be begun', async () => {
    let made = 0;
    const at = await led(async () => {
      made += 1;
      if (made === 20) at.warmUp.cancelSound();
      return silence;
    });
    await at.warmUp.saveSound({ id: 'before-the-bar', minutes: null });
    expect(saved).toEqual([]);
    expect(at.shown()).toMatchObject({ sound: null, told: null });
    await at.warmUp.saveSound({ id: 'before-the-bar', minutes: 1 });
    expect(saved).toHaveLength(1);
  });

  it.each([
    [new Error('The voice stopped'), /Connect to the network once, and save it again/],
    [new RangeError('Array buffer allocation failed'), /too little memory/],
  ])('that cannot be made says why and what to do: %s', async (problem, say) => {
    const at = await led(() => Promise.reject(problem));
    await at.warmUp.saveSound({ id: 'before-the-bar', minutes: 1 });
    expect(saved).toEqual([]);
    expect(at.shown()).toMatchObject({
      ...{ sound: null, trouble: expect.stringMatching(say) as string },
    });
  });
});
