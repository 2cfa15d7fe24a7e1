import { repliesHeardIn } from '../domain/hearing/heardIn';
import { numberCounting } from '../domain/hearing/numbers';
import type { CueBook, PromptId } from '../domain/script';
import type { Problem } from './problem';
import type { Sources } from './reading';
import { spokenTexts, type SpokenText } from './spoken';
import { problemWhere } from './where';

/**
 * Cues that the ear, hearing its own voice, would take for a reply: at the prompt that follows
 * them or while work goes on. A sentence that must name a reply says which in `mayHear`.
 */
export function hearingProblems(sources: Sources, book: CueBook): Problem[] {
  return spokenTexts(book).flatMap((spoken) => {
    const mayHear = mayHearOf(sources, spoken);
    for (const prompt of promptsAfter(spoken)) {
      for (const text of filledIn(book, spoken.text)) {
        const heard = repliesHeardIn(book, prompt, text).filter(
          (reply) => !mayHear.includes(reply),
        );
        if (heard.length === 0) continue;
        const problem = `would itself be heard as a reply at ${prompt}: ${heard.join(', ')}; word it otherwise`;
        return [problemWhere(sources, spoken.at, problem)];
      }
    }
    return [];
  });
}

/** The prompts that may be open when the ear hears it. */
const promptsAfter = ({ at }: SpokenText): PromptId[] => {
  // Nobody is asked anything in a warm-up.
  if (at.kind === 'warm-up') return ['idle'];
  if (at.kind !== 'line') return ['idle', `${at.kind === 'check' ? 'check' : 'set'}/${at.id}`];
  if (/^ask\.pain-(number|morning|since)$/.test(at.key)) return ['idle', 'pain/how-much'];
  if (at.key === 'ask.pain-kind') return ['idle', 'pain/kind'];
  return at.key.startsWith('confirm.') ? ['idle', 'confirm'] : ['idle'];
};

/** What placeholders may stand for; any other is filled with a plain word. */
const valuesOf = (book: CueBook): Record<string, string[]> => {
  const names = [...Object.values(book.checks), ...Object.values(book.drills)].map(
    ({ name }) => name,
  );
  const keyed = (prefix: string) =>
    Object.entries(book.lines).flatMap(([key, text]) => (key.startsWith(prefix) ? [text] : []));
  const { and } = book.vocabulary.numbers;
  const [one = '', five = '', ten = '', more = ''] = [1, 5, 10, 21].map((value) =>
    numberCounting(book.vocabulary.numbers, value),
  );
  const numbers = [more, `${ten}, ${ten} ${and[0] ?? ''} ${five}`];
  const readbacks = Object.values(book.faults).map(({ readback }) => readback);
  return {
    readback: readbacks,
    fault: readbacks,
    faults: readbacks,
    drill: names,
    check: names,
    name: names,
    from: names,
    to: names,
    target: names,
    area: keyed('area.'),
    drills: names,
    lifts: keyed('lift.'),
    minutes: ['5'],
    number: numbers,
    length: [
      fill(book.lines['say.centimetre'], one),
      ...numbers.map((number) => fill(book.lines['say.centimetres'], number)),
    ],
  };
};

const fill = (line = '', number: string): string => line.replace('{number}', number);

/** The sentence with its placeholders filled in every way, each on its own. */
function filledIn(book: CueBook, text: string): string[] {
  const placeholder = /\{([\w-]+)\}/.exec(text);
  if (placeholder === null) return [text];
  const [braced, name = ''] = placeholder;
  const { plainWord } = book.vocabulary;
  const values = valuesOf(book)[name] ?? [plainWord];
  return values.map((value) =>
    text.replaceAll(braced, value).replace(/\{([\w-]+)\}/g, (_, other: string) => {
      return valuesOf(book)[other]?.[0] ?? plainWord;
    }),
  );
}

function mayHearOf(sources: Sources, { at }: SpokenText): string[] {
  if (at.kind !== 'line') return [];
  const line = sources.lines
    .map(({ value }) => value?.[at.key])
    .find((found) => found !== undefined);
  return typeof line === 'object' ? line.mayHear : [];
}
