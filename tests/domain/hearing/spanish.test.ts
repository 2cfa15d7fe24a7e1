import { describe, expect, it } from 'vitest';
import { loadBook } from '../../../src/cues/fromFolder';
import { graphOf } from '../../../src/domain/hearing/building';
import { numberAt, numberSpoken } from '../../../src/domain/hearing/numbers';
import { promptsOf } from '../../../src/domain/hearing/prompts';
import { understand } from '../../../src/domain/hearing/understanding';
import { unaccented } from '../../../src/domain/hearing/words';
import { corpus, misread, type Utterance } from '../../corpus/score';

const book = loadBook('scripts-cues', 'es');
const { numbers } = book.vocabulary;
const options = { passLineDegrees: 155, painGoesOnUpTo: 2, confidence: 1 };
const heard = (at: string, text: string) => understand(book, at, text, options);

const FILES = ['spanish/untouched', 'spanish/tuned', 'spanish/later', 'spanish/talk'];
const all = FILES.flatMap(corpus);
const wrong = (some: Utterance[]) => some.flatMap((each) => misread(book, each) ?? []);

describe('Spanish as coaches type it', () => {
  // How many were right at first sight is said in DEVELOPERS.md.
  it('is understood, but for 2 in 100', () => {
    expect(all.length).toBeGreaterThanOrEqual(220);
    const misreadings = wrong(all);
    expect(misreadings.length / all.length, misreadings.join('\n')).toBeLessThanOrEqual(0.02);
  });

  it('is understood without its accents as with them, and in capitals', () => {
    const right = all.filter((each) => misread(book, each) === null);
    expect(wrong(right.map((each) => ({ ...each, text: unaccented(each.text) })))).toEqual([]);
    expect(wrong(right.map((each) => ({ ...each, text: each.text.toUpperCase() })))).toEqual([]);
  });

  it('is never acted on where it is talk, an order to the athlete, a question or praise', () => {
    const talk = all.filter(({ reading }) => reading.verdict === 'ignore');
    const graded = talk.flatMap((each) => {
      const { reply } = heard(each.at, each.text);
      return reply !== null && (reply.result !== null || reply.pain !== null) ? [each.text] : [];
    });
    expect(talk.length).toBeGreaterThan(80);
    // That two do not come up together is told of both; it ought to be asked about.
    expect(graded).toEqual(['pecho y cadera no suben juntos']);
  });

  it.each(['Alto', 'para', 'pare', 'paren', 'basta', 'detente', '¡alto, alto!', 'no, para'])(
    'stops at "%s", whatever is asked',
    (text) => {
      for (const { prompt } of promptsOf(book)) {
        const { verdict, reply } = heard(prompt, text);
        expect({ prompt, verdict, command: reply?.command }).toEqual({
          prompt,
          verdict: 'accept',
          command: 'stop',
        });
      }
    },
  );

  it('means what English means by the same word at another place', () => {
    // "No" before a word denies it, set apart it takes back what was said.
    expect(heard('check/hinge-bar', 'espalda no redonda').reply?.faults).toEqual([]);
    expect(heard('check/hinge-bar', 'espalda, no, rodillas adelante').reply?.faults).toEqual([
      'knees-forward',
    ]);
    expect(heard('check/hinge-bar', 'pasa, no, limitado').reply?.result).toBe('short');
    // Typed without commas: it may be either, unless a value follows, so it is asked about.
    for (const text of ['pasa no limitado', 'pasa no espalda redonda', 'limpia no llega'])
      expect(heard('check/hinge-bar', text), text).toMatchObject({ verdict: 'confirm' });
    expect(heard('idle', 'izquierda uno cuarenta no uno cincuenta limitado').reply).toMatchObject({
      angleDegrees: 150,
    });
    // A side follows what it is of.
    expect(heard('set/deadlift', 'la rodilla izquierda me duele').reply).toMatchObject({
      side: 'left',
      result: 'pain',
    });
  });

  it('is read back in Spanish, with its accents', () => {
    expect(heard('set/deadlift', 'rodillas adelante y dolor dos').readback).toBe(
      'rodillas adelante, dolor dos',
    );
    expect(heard('set/deadlift', 'un pinchazo, cuatro').readback).toBe('dolor punzante cuatro');
    expect(heard('set/deadlift', 'mas rapido').readback).toBe('más rápido');
    expect(heard('idle', 'izquierda uno cuarenta y cinco limitado').readback).toBe(
      'izquierda, ciento cuarenta y cinco, limitada',
    );
    expect(heard('set/deadlift', 've al peso muerto rumano').readback).toBe(
      'toca el peso muerto rumano',
    );
  });
});

const UNITS = [
  ...['cero', 'uno', 'dos', 'tres', 'cuatro', 'cinco', 'seis', 'siete', 'ocho', 'nueve', 'diez'],
  ...['once', 'doce', 'trece', 'catorce', 'quince', 'dieciséis', 'diecisiete', 'dieciocho'],
  ...['diecinueve', 'veinte', 'veintiuno', 'veintidós', 'veintitrés', 'veinticuatro'],
  ...['veinticinco', 'veintiséis', 'veintisiete', 'veintiocho', 'veintinueve'],
];
const TENS = ['treinta', 'cuarenta', 'cincuenta', 'sesenta', 'setenta', 'ochenta', 'noventa'];

function underHundred(value: number): string {
  if (value < 30) return UNITS[value]!;
  const ten = TENS[Math.floor(value / 10) - 3]!;
  return value % 10 === 0 ? ten : `${ten} y ${UNITS[value % 10]!}`;
}

/** As it is written in full, and shorter as it is said of heights and angles. */
function formsOf(value: number): string[] {
  const rest = value % 100;
  if (value < 100) return [underHundred(value), String(value)];
  if (rest === 0) return [value === 100 ? 'cien' : 'doscientos', String(value)];
  const short = rest < 10 ? `uno cero ${UNITS[rest]!}` : `uno ${underHundred(rest)}`;
  return [`ciento ${underHundred(rest)}`, short, String(value)];
}

describe('numbers in Spanish', () => {
  it.each(Array.from({ length: 201 }, (_, value) => value))('%d: said and understood', (value) => {
    expect(numberSpoken(numbers, value)).toBe(formsOf(value)[0]);
    for (const form of formsOf(value)) {
      const words = form.split(' ');
      expect({ form, ...numberAt(numbers, words, 0) }).toEqual({
        form,
        value,
        length: words.length,
      });
      if (value < 20) continue;
      const { reply } = heard('idle', `izquierda ${form}, limitado`);
      expect({ form, angle: reply?.angleDegrees }).toEqual({ form, angle: value });
    }
  });
});

describe('what an ear would listen for in Spanish', () => {
  it.each(promptsOf(book).map(({ prompt }) => prompt))('%s is understood when typed', (prompt) => {
    const graph = graphOf(book, prompt);
    const whole = graph.arcs.filter(({ from, to }) => from === 0 && graph.finals.has(to));
    expect(whole.length).toBeGreaterThan(10);
    for (const { words, meant } of whole) {
      const { command, redFlag, faults } = meant.says ?? {};
      const { reply } = heard(prompt, words);
      if (command !== undefined)
        expect({ words, command: reply?.command }).toEqual({ words, command });
      if (redFlag !== undefined)
        expect({ words, redFlag: reply?.redFlag }).toEqual({ words, redFlag });
      if (faults !== undefined) expect({ words, faults: reply?.faults }).toEqual({ words, faults });
    }
  });
});
