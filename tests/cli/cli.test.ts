import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { waveFile } from '../../src/tones/wave';
import { COACH_VOICE, fliteInNode } from '../../src/voice/node';
import { sayso, saysoProcess, unwritten, written, type Ran } from './running';

const HINGE = [
  'knees came forward',
  'knees forward # the first set',
  'clean set',
  'clean set',
  ...Array.from({ length: 8 }, () => 'clean'),
].join('\n');

describe('sayso', () => {
  it('without a verb shows how it is used, exit 2', async () => {
    const { status, errors } = await saysoProcess();
    expect(status).toBe(2);
    expect(errors).toContain('rehearse');
  });

  it('refuses an unknown verb by naming the known ones, exit 2', async () => {
    const { status, errors } = await sayso('sing');
    expect(status).toBe(2);
    expect(errors).toMatch(/no verb "sing"[\s\S]*hear[\s\S]*prompts/);
  });

  it.each(['hear', 'rehearse', 'scripts', 'plan', 'sheet', 'prompts'])(
    '%s --help',
    async (verb) => {
      const { status, output } = await sayso(verb, '--help');
      expect(status).toBe(0);
      expect(output).toContain(`Usage: sayso ${verb}`);
    },
  );

  it('an unknown language names the known ones', async () => {
    const { status, errors } = await sayso('prompts', '--language', 'xx');
    expect(status).toBe(1);
    expect(errors).toMatch(/\ben\b/);
  });
});

describe('hear', () => {
  it('answers in the agreed form', async () => {
    const { status, answers } = await sayso(
      ...['hear', '--at', 'check/overhead-passive', 'left one forty ribs flared'],
    );
    expect(status).toBe(0);
    expect(answers).toMatchObject([
      {
        heard: 'left one forty ribs flared',
        verdict: 'accept',
        reply: {
          command: null,
          target: null,
          side: 'left',
          result: 'lost',
          faults: ['ribs-flared'],
          angleDegrees: 140,
          pain: null,
          redFlag: null,
        },
        confidence: 1,
        readback: 'left, one forty, ribs',
      },
    ]);
  });

  it('an unknown prompt is refused with the known ones', async () => {
    const { status, errors } = await sayso('hear', '--at', 'check/nothing', 'pass');
    expect(status).toBe(1);
    expect(errors).toContain('check/hinge-unloaded');
  });

  it('many lines: in order, a bad one answered by its error, exit 1', async () => {
    const file = written(
      'many.jsonl',
      [
        '{"at":"set/bell-hinge","text":"knees came forward"}',
        'not json',
        '{"at":"nowhere","text":"pass"}',
        '{"at":"idle","text":"stop"}',
      ].join('\n'),
    );
    const { status, answers } = await sayso('hear', '--jsonl', file);
    expect(status).toBe(1);
    expect(answers).toHaveLength(4);
    expect(answers[0]).toMatchObject({ reply: { faults: ['knees-forward'] } });
    expect(answers[1]?.error).toContain('line 2');
    expect(answers[2]?.error).toContain('set/bell-hinge');
    expect(answers[3]).toMatchObject({ reply: { command: 'stop' } });
  });

  it('wrong usage is exit 2', async () => {
    expect((await sayso('hear', 'pass')).status).toBe(2);
    expect((await sayso('hear', '--at', 'idle')).status).toBe(2);
    expect((await sayso('hear', '--at', 'idle', '--wrong', 'x')).status).toBe(2);
  });

  it('a sound file goes through the recogniser', async () => {
    const flite = await fliteInNode();
    const { samples, sampleRate } = flite.synthesize('knees forward', COACH_VOICE);
    const file = written('knees.wav', waveFile(samples, sampleRate));
    const { status, answers } = await sayso('hear', '--at', 'set/bell-hinge', '--audio', file);
    expect(status).toBe(0);
    expect(answers).toMatchObject([
      { heard: 'knees forward', verdict: 'accept', reply: { faults: ['knees-forward'] } },
    ]);
  });

  it('a sound file that cannot be read says why, exit 1', async () => {
    const none = await sayso('hear', '--at', 'idle', '--audio', unwritten('none.wav'));
    expect(none.status).toBe(1);
    expect(none.errors).toContain('no such file');
    const text = written('text.wav', 'this is not sound');
    const wrong = await sayso('hear', '--at', 'idle', '--audio', text);
    expect(wrong.status).toBe(1);
    expect(wrong.errors).toContain('text.wav');
  });
});

describe('rehearse', () => {
  let first: Ran;
  const session = unwritten('session.json');
  beforeAll(async () => {
    first = await sayso(
      ...['rehearse', 'hinge', '--replies', written('hinge.txt', HINGE), '--session', session],
    );
  });

  it('gives the whole timeline, the same byte for byte', async () => {
    const again = await saysoProcess(
      ...['rehearse', 'hinge', '--replies', written('hinge.txt', HINGE)],
    );
    expect(first.status).toBe(0);
    expect(again.output).toBe(first.output);
    expect(first.answers.length).toBeGreaterThan(100);
  });

  it('tells the story of the hinge: fault, grade, decision with its rule, drill, outcome', () => {
    const kinds = first.answers.filter(({ type }) =>
      ['finding', 'decision', 'step', 'outcome'].includes(String(type)),
    );
    expect(kinds.slice(1, 5)).toMatchObject([
      { type: 'step', prompt: 'check/hinge-unloaded' },
      { type: 'finding', result: 'lost', faults: ['knees-forward'] },
      { type: 'decision', from: 'hinge-unloaded', to: 'bell-hinge', rule: '11.1' },
      { type: 'step', prompt: 'set/bell-hinge', set: 1, rung: 2 },
    ]);
    expect(first.answers.at(-1)).toMatchObject({
      type: 'end',
      reason: 'completed',
      areas: [{ area: 'hinge', outcome: 'ready' }],
      liftsReady: ['pulls'],
    });
  });

  it('never speaks two cues at once, and time never falls', () => {
    let quietFrom = 0;
    let last = 0;
    for (const { t, type, seconds } of first.answers) {
      expect(Number(t)).toBeGreaterThanOrEqual(last);
      last = Number(t);
      if (type !== 'cue') continue;
      expect(Number(t)).toBeGreaterThanOrEqual(quietFrom - 0.002);
      quietFrom = Number(t) + Number(seconds);
    }
  });

  it('writes the session that a sheet needs', () => {
    const written = JSON.parse(readFileSync(session, 'utf8')) as {
      entries: { id: string; type: string }[];
      areas: unknown[];
    };
    expect(written.entries[0]).toMatchObject({ type: 'started' });
    expect(written.entries.at(-1)).toMatchObject({ type: 'ended' });
    expect(written.areas).toMatchObject([{ area: 'hinge', outcome: 'ready' }]);
    expect(new Set(written.entries.map(({ id }) => id)).size).toBe(written.entries.length);
  });

  it('ends with every outcome where the replies run out', async () => {
    const { answers } = await sayso('rehearse', 'hinge', '--replies', written('one.txt', 'clean'));
    expect(answers.slice(-2)).toMatchObject([
      { type: 'outcome', area: 'hinge', outcome: 'unfinished' },
      { type: 'end', reason: 'replies-ended' },
    ]);
  });

  it('an empty line is silence for that prompt; a reply begins 1.5 s after it opens', async () => {
    const file = written('silence.txt', '\nclean\n');
    const { answers } = await sayso('rehearse', 'hinge', '--replies', file);
    const listens = answers.filter(({ type }) => type === 'listen').map(({ t }) => Number(t));
    const heard = answers.find(({ type }) => type === 'heard');
    // One word of 0.35 s after the second asking.
    expect(Number(heard?.t)).toBeCloseTo((listens[1] ?? 0) + 1.5 + 0.35, 3);
  });

  it('a timed line is heard at its second, whatever is going on', async () => {
    const file = written('timed.txt', '@12.5 stop\nyes\n');
    const { answers } = await sayso('rehearse', 'hinge', '--replies', file);
    expect(answers.find(({ type }) => type === 'heard')).toMatchObject({ t: 12.85, text: 'stop' });
    expect(answers.at(-1)).toMatchObject({ type: 'end', reason: 'stopped' });
  });

  it('takes a sound file as a reply', async () => {
    const flite = await fliteInNode();
    const { samples, sampleRate } = flite.synthesize('knees forward', COACH_VOICE);
    written('reply.wav', waveFile(samples, sampleRate));
    const file = written('sound.txt', '@audio reply.wav\n');
    const { answers } = await sayso('rehearse', 'hinge', '--replies', file);
    expect(answers.find(({ type }) => type === 'finding')).toMatchObject({
      faults: ['knees-forward'],
    });
  });

  it('--sound writes what would be heard: 16-bit mono, as long as the session, not silent', async () => {
    const out = unwritten('hinge.wav');
    const file = written('sounded.txt', 'clean\n');
    await sayso('rehearse', 'hinge', '--replies', file, '--sound', out);
    const bytes = readFileSync(out);
    expect(bytes.subarray(0, 4).toString()).toBe('RIFF');
    expect([bytes.readUInt16LE(22), bytes.readUInt16LE(34)]).toEqual([1, 16]);
    const samples = new Int16Array(bytes.buffer, bytes.byteOffset + 44, (bytes.length - 44) >> 1);
    const rate = bytes.readUInt32LE(24);
    // The first cue begins at once, and the session lasts more than a minute.
    expect(samples.subarray(0, rate * 2).some((sample) => Math.abs(sample) > 3000)).toBe(true);
    expect(samples.length / rate).toBeGreaterThan(60);
  });

  it.each([
    [['nowhere', '--replies', 'x.txt'], 1, /no routine "nowhere"[\s\S]*hinge/],
    [['hinge'], 2, /--replies/],
    [['hinge', '--replies', 'not-there.txt'], 1, /no such file/],
    [['hinge', '--replies', 'not-there.txt', '--way', 'sideways'], 2, /hands-on/],
  ])('refuses %j', async (args, exit, message) => {
    const { status, errors } = await sayso('rehearse', ...args);
    expect(status).toBe(exit);
    expect(errors).toMatch(message);
  });

  it('names the line of a reply that it does not understand', async () => {
    const file = written('marks.txt', 'clean\n@soon stop\n');
    const { status, errors } = await sayso('rehearse', 'hinge', '--replies', file);
    expect(status).toBe(1);
    expect(errors).toContain('marks.txt:2');
  });

  it('an athlete file that sets what is not known is refused with the known', async () => {
    const replies = written('r.txt', 'clean');
    const athlete = written('athlete.json', '{"height": 3}');
    const { status, errors } = await sayso(
      ...['rehearse', 'hinge', '--replies', replies, '--athlete', athlete],
    );
    expect(status).toBe(1);
    expect(errors).toContain('passLineDegrees');
  });
});

describe('plan, prompts and scripts', () => {
  it('plan adds up', async () => {
    const { status, answers } = await sayso('plan', 'hinge');
    expect(status).toBe(0);
    const steps = answers.slice(0, -1);
    const sum = steps.reduce((total, { seconds }) => total + Number(seconds), 0);
    expect(answers.at(-1)?.totalSeconds).toBeCloseTo(sum, 2);
    expect(steps.map(({ step }) => step)).toContain('set/deadlift set 1');
  });

  it('plan refuses an unknown routine with the known ones', async () => {
    const { status, errors } = await sayso('plan', 'nothing');
    expect(status).toBe(1);
    expect(errors).toContain('hinge');
  });

  it('prompts says what each expects', async () => {
    const { answers } = await sayso('prompts');
    const hinge = answers.find(({ prompt }) => prompt === 'check/hinge-bar');
    expect(hinge?.expects).toEqual(expect.arrayContaining(['held', 'knees-forward', 'stop']));
    expect(answers.map(({ prompt }) => prompt)).toEqual(
      expect.arrayContaining(['idle', 'confirm', 'pain/how-much', 'pain/kind']),
    );
  });

  it('scripts says nothing where nothing is wrong', async () => {
    // The smallest language; all that is shipped is checked as a stage of its own.
    const folder = mkdtempSync(join(tmpdir(), 'one-language-'));
    cpSync('scripts-cues/es', join(folder, 'es'), { recursive: true });
    const { status, output } = await sayso('scripts', folder, '--language', 'es');
    rmSync(folder, { recursive: true });
    expect(output).toBe('');
    expect(status).toBe(0);
  });

  it('scripts refuses a folder that is not there', async () => {
    const { status, errors } = await sayso('scripts', unwritten('nowhere'));
    expect(status).toBe(1);
    expect(errors).toContain('no such folder');
  });
});
