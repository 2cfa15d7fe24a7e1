import { describe, expect, test } from 'vitest';
import { UNFITTED } from '../../src/ear/coach/coachEar';
import type { Hearing } from '../../src/ports';
import { puppetEar, type PuppetWorker } from './doubles';

const listening = () => {
  const puppet = puppetEar();
  const heard: Hearing[] = [];
  puppet.ear.listen((hearing) => heard.push(hearing));
  puppet.ear.attend('confirm');
  return { ...puppet, heard };
};
const words = (text: string, utterance: number) =>
  ({
    type: 'heard',
    utterance,
    hearing: { type: 'words', text, confidence: 0.9, prompt: 'confirm' },
  }) as const;
const rates = (worker: PuppetWorker) =>
  worker.sent.flatMap((message) => (message.type === 'microphone' ? [message.sampleRate] : []));

describe('a rude worker', () => {
  test('telling one utterance twice is heard once', () => {
    const { worker, heard } = listening();
    worker().tell(words('yes', 1));
    worker().tell(words('yes', 1));
    worker().tell(words('yes', 2));
    expect(heard).toHaveLength(2);
  });

  test('telling an urgent word and then all of it is heard as both', () => {
    const { worker, heard } = listening();
    worker().tell(words('pain', 1));
    worker().tell(words('pain seven', 1));
    expect(heard).toMatchObject([{ text: 'pain' }, { text: 'pain seven' }]);
  });

  test('telling of an utterance that is over is not heard', () => {
    const { worker, heard } = listening();
    worker().tell(words('yes', 2));
    worker().tell(words('no', 1));
    expect(heard).toMatchObject([{ text: 'yes' }]);
  });

  test('talking on after the ear was closed is not heard', () => {
    const { ear, worker, heard } = listening();
    const last = worker();
    ear.close();
    last.tell(words('yes', 1));
    expect(heard).toEqual([]);
    expect(last.terminated).toBe(true);
  });

  test('crashing makes the ear deaf, is started again at the same prompt and hears again', () => {
    const { clock, workers, worker, heard } = listening();
    worker().tell({ type: 'ready' });
    const dead = worker();
    dead.crash();
    expect(heard).toEqual([{ type: 'deaf', why: 'worker-failed' }]);
    clock.advance(1000);
    expect(workers).toHaveLength(2);
    expect(worker().attended).toBe('confirm');
    worker().tell({ type: 'ready' });
    dead.tell(words('no', 1));
    worker().tell(words('yes', 1));
    expect(heard.slice(1)).toMatchObject([{ type: 'hears-again' }, { text: 'yes' }]);
  });

  test('crashing again and again is given up after three starts', async () => {
    const { ear, clock, workers, worker, heard } = listening();
    for (let crash = 0; crash < 6; crash += 1) {
      worker().crash();
      clock.advance(60_000);
    }
    expect(workers).toHaveLength(4);
    expect(heard).toEqual([{ type: 'deaf', why: 'worker-failed' }]);
    await expect(ear.ready).rejects.toThrow('stopped');
  });

  test('whose models are missing is not started again', async () => {
    const { ear, clock, workers, worker, heard } = listening();
    worker().tell({ type: 'failed', why: 'model-missing', detail: 'ear/vad.onnx: answered 404' });
    clock.advance(60_000);
    expect(workers).toHaveLength(1);
    expect(heard).toEqual([{ type: 'deaf', why: 'model-missing' }]);
    await expect(ear.ready).rejects.toThrow('answered 404');
  });
});

describe('the microphone', () => {
  test.each(['denied', 'no-microphone'] as const)('%s is the answer of open', async (trouble) => {
    const { ear, microphoneAnswers } = listening();
    microphoneAnswers(trouble);
    expect(await ear.open()).toBe(trouble);
  });

  test('a request that nobody answers is denied after half a minute', async () => {
    const { ear, clock, microphoneAnswers } = listening();
    microphoneAnswers('never');
    const opening = ear.open();
    clock.advance(30_000);
    expect(await opening).toBe('denied');
  });

  test('unplugged makes the ear deaf; plugged in again it is joined to the same worker', async () => {
    const { ear, heard, worker, microphones, microphoneAnswers, devices } = listening();
    expect(await ear.open()).toBeNull();
    microphones[0]!.ended();
    expect(heard).toEqual([{ type: 'deaf', why: 'unplugged' }]);
    expect(microphones[0]!.closed).toBe(true);

    microphoneAnswers('no-microphone');
    await devices([]);
    expect(heard).toHaveLength(1);

    microphoneAnswers('opens');
    await devices(['built-in']);
    expect(heard[1]).toEqual({ type: 'hears-again' });
    expect(rates(worker())).toEqual([48000, 48000]);
  });

  test('taken by a call it is deaf, as interrupted, and hears again afterwards', async () => {
    const { ear, clock, heard, microphones } = listening();
    await ear.open();
    microphones[0]!.muted(true);
    clock.advance(1000);
    expect(heard).toEqual([]);
    clock.advance(1000);
    expect(heard).toEqual([{ type: 'deaf', why: 'interrupted' }]);
    microphones[0]!.muted(false);
    expect(heard[1]).toEqual({ type: 'hears-again' });
    expect(microphones).toHaveLength(1);
  });

  test('mute for a moment, as where a headset is switched, nothing is told', async () => {
    const { ear, clock, heard, microphones } = listening();
    await ear.open();
    microphones[0]!.muted(true);
    clock.advance(1000);
    microphones[0]!.muted(false);
    clock.advance(10_000);
    expect(heard).toEqual([]);
  });

  test('a headset that comes in a call is heard', async () => {
    const { ear, clock, heard, microphones, devices } = listening();
    await ear.open();
    microphones[0]!.muted(true);
    clock.advance(2000);
    await devices(['built-in', 'headset']);
    expect(heard.at(-1)).toEqual({ type: 'hears-again' });
    // The old one is not asked any more.
    microphones[0]!.muted(true);
    clock.advance(2000);
    expect(heard.at(-1)).toEqual({ type: 'hears-again' });
  });

  test('whose permission is revoked in mid-session says so, and hears once it is given again', async () => {
    const { ear, heard, microphones, microphoneAnswers, devices } = listening();
    await ear.open();
    microphones[0]!.ended();
    microphoneAnswers('denied');
    await devices(['built-in']);
    expect(heard.slice(-1)).toEqual([{ type: 'deaf', why: 'denied' }]);
    microphoneAnswers('opens');
    await devices(['built-in']);
    expect(heard.slice(-1)).toEqual([{ type: 'hears-again' }]);
  });

  test('a headset that comes is heard from then on, at its own rate, without a gap', async () => {
    const { ear, heard, worker, microphones, devices } = listening();
    await ear.open();
    await devices(['built-in', 'headset'], 16000);
    expect(microphones.map(({ closed }) => closed)).toEqual([true, false]);
    expect(rates(worker())).toEqual([48000, 16000]);
    // The old one ends when it is let go.
    microphones[0]!.ended();
    expect(heard).toEqual([]);
  });

  test('a headset that goes again leaves the ear deaf only until the other is open', async () => {
    const { ear, heard, worker, microphones, devices } = listening();
    await ear.open();
    await devices(['built-in', 'headset'], 16000);
    microphones[1]!.ended();
    await devices(['built-in'], 44100);
    expect(heard).toEqual([{ type: 'deaf', why: 'unplugged' }, { type: 'hears-again' }]);
    expect(rates(worker())).toEqual([48000, 16000, 44100]);
  });

  test.each(['denied', 'no-microphone'] as const)(
    'a new one that is %s leaves the one that is open',
    async (trouble) => {
      const { ear, heard, microphones, microphoneAnswers, devices } = listening();
      await ear.open();
      microphoneAnswers(trouble);
      await devices(['built-in', 'headset']);
      expect(microphones.map(({ closed }) => closed)).toEqual([false]);
      expect(heard).toEqual([]);
    },
  );

  test('other devices that come and go change nothing', async () => {
    const { ear, microphones, devices } = listening();
    await ear.open();
    await devices(['built-in']);
    expect(microphones).toHaveLength(1);
  });

  test('devices that come before the microphone was asked for open none', async () => {
    const { microphones, devices } = listening();
    await devices(['built-in', 'headset']);
    expect(microphones).toHaveLength(0);
  });

  test('asked for twice at once is opened once', async () => {
    const { ear, microphones } = listening();
    await Promise.all([ear.open(), ear.open()]);
    expect(microphones).toHaveLength(1);
  });

  test('a new worker gets the microphone that is open', async () => {
    const { ear, clock, worker, microphones } = listening();
    await ear.open();
    worker().crash();
    clock.advance(1000);
    expect(worker().sent.some(({ type }) => type === 'microphone')).toBe(true);
    expect(microphones[0]!.ports).toBe(2);
  });

  test('is given back by close', async () => {
    const { ear, microphones } = listening();
    await ear.open();
    ear.close();
    expect(microphones[0]!.closed).toBe(true);
  });
});

test('a grammar travels to the worker once', () => {
  const { ear, worker } = listening();
  ear.attend('idle');
  ear.attend('confirm');
  const grammars = worker().sent.flatMap((message) =>
    message.type === 'attend' ? [[message.prompt, message.grammar !== null]] : [],
  );
  expect(grammars).toEqual([
    ['confirm', true],
    ['idle', true],
    ['confirm', false],
  ]);
});

test('the level and how well it hears reach whoever watches', () => {
  const { ear, worker } = listening();
  const seen: [number, string][] = [];
  const cancel = ear.onLevel((level, hearsWell) => seen.push([level, hearsWell]));
  worker().tell({ type: 'level', report: { level: 0.4, hearsWell: 'quiet' } });
  cancel();
  worker().tell({ type: 'level', report: { level: 0.5, hearsWell: 'good' } });
  expect(seen).toEqual([[0.4, 'quiet']]);
  expect(ear.hearsWell()).toBe('good');
});

describe('an ear that is fitted to a coach', () => {
  test('asks for the grammars anew, and tells a worker that was started again', () => {
    const asked: string[] = [];
    const { ear, worker, clock } = puppetEar({
      grammarFor: (prompt) => {
        asked.push(prompt);
        return { prompt, states: 1, finals: [], arcs: [] };
      },
    });
    ear.attend('confirm');
    const coach = { ...UNFITTED, offset: -0.5 };
    ear.fit(coach, { cushty: [['K', 'UH', 'SH', 'T', 'IY']] });
    expect(asked).toEqual(['confirm', 'confirm']);
    expect(worker().sent.slice(-2)).toMatchObject([
      { type: 'fit', coach },
      { type: 'attend', prompt: 'confirm', grammar: { prompt: 'confirm' } },
    ]);
    worker().crash();
    clock.advance(1000);
    expect(worker().sent.map(({ type }) => type)).toEqual(['start', 'fit', 'attend']);
  });
});
