import { expect, it } from 'vitest';
import { readerOf } from '../../src/ear/node';
import type { PhoneReader } from '../../src/ear/phoneReader';
import type { FromStrongWorker, ToStrongWorker } from '../../src/ear/strong/messages';
import { lexiconOf, phrases } from './grammars';
import { spoken } from './speech';
import { StrongHere } from './strongHere';

const GRAMMAR = phrases('idle', ['stop', 'pause', 'pain']);

it('a look that somebody waits for goes before the second reading of one that is in doubt', async () => {
  const [strong, small] = [await readerOf('strong'), await readerOf('small')];
  const read: string[] = [];
  const stop = await spoken('stop', { before: 0.3, after: 0 });
  // It may be "pain".
  const paint = await spoken('paint', { before: 0.3, after: 0 });
  const noted = (name: string, reader: PhoneReader): PhoneReader => ({
    ...reader,
    read: (samples) => {
      read.push(`${name} ${samples.length === stop.length ? 'stop' : 'paint'}`);
      return reader.read(samples);
    },
  });
  const worker = new StrongHere(() =>
    Promise.resolve({ strong: noted('strong', strong), small: noted('small', small) }),
  );
  const told: FromStrongWorker[] = [];
  let wake: () => void = () => undefined;
  worker.onmessage = ({ data }) => {
    told.push(data);
    wake();
  };
  const until = async (count: number) => {
    while (told.length < count) await new Promise<void>((resolve) => (wake = resolve));
  };
  worker.postMessage({ type: 'start', assetsBase: '/' });
  await until(1);
  read.length = 0;
  const asked = (look: number, samples: Float32Array, once: boolean): ToStrongWorker => ({
    ...{ type: 'look', look, samples, how: { once } },
    grammar: { number: 1, thing: GRAMMAR },
    lexicon: { number: 2, thing: lexiconOf(GRAMMAR) },
  });
  worker.postMessage(asked(1, paint, false));
  worker.postMessage(asked(2, stop, true));
  await until(3);
  expect(told.flatMap((each) => (each.type === 'looked' ? [each.look] : []))).toEqual([2, 1]);
  const both = (word: string) => [`strong ${word}`, `small ${word}`];
  expect(read).toEqual([...both('paint'), ...both('stop'), ...both('paint')]);
});
