import { NO_REPLY, type Reply } from '../domain/hearing/reply';
import { readbackOf } from '../domain/hearing/readback';
import { say } from '../domain/saying';
import type { CueBook } from '../domain/script';
import type { AttemptInput } from './attemptMachine';
import * as attempting from './attempting';
import { decide } from './deciding';
import { recordAnswer } from './recording';
import { noting, type SessionContext } from './sessionContext';
import { tellingTexts } from './telling';

/** Lines that may be wanted at any moment, and then at once. */
const AT_ONCE = ['confirm.end', 'ask.pain-number', 'ask.pain-kind', 'say.paused', 'say.red-flag'];
export const textsAtOnce = ({ lines }: CueBook): string[] =>
  AT_ONCE.map((key) => say(lines, key, {}));

const PASS: Reply = { ...NO_REPLY, result: 'held' };

/** What is told before a step; while it is spoken, the lines of the step are made. */
export function toldTexts(context: SessionContext): string[] {
  const texts = tellingTexts(context);
  prepare(context, texts, partsOf(context));
  return texts;
}

/** The step at hand; while it is performed, what a pass would bring is made. */
export function attemptInput(context: SessionContext): AttemptInput {
  const input = attempting.attemptInput(context);
  prepare(context, [], partsOf(context));
  // Asked for in each step, so that they are not the first to be forgotten.
  prepare(context, textsAtOnce(context.book));
  const next = afterPass(context);
  prepare(next, tellingTexts(next), partsOf(next));
  return input;
}

/** What is spoken of a check or set; nothing of any other step. */
function partsOf(context: SessionContext): attempting.StepTexts {
  const { decision } = context;
  const isWork = decision?.step.do === 'check' || decision?.step.do === 'set';
  return isWork ? attempting.textsOf(context) : { texts: [], counts: [] };
}

function prepare(
  { stage }: SessionContext,
  told: string[],
  { texts, counts }: attempting.StepTexts = { texts: [], counts: [] },
): void {
  stage.prepare([...new Set([...told, ...texts].filter(Boolean))], counts);
}

/** The session as it would stand if this step were asked about and passed: the likeliest way on. */
function afterPass(context: SessionContext): SessionContext {
  const { prompt, side } = attempting.stepOf(context, 'check', 'set');
  const asked = { ...context, ...noting(context, [{ type: 'asked', prompt, side }]) };
  const readback = readbackOf(context.book, PASS);
  const reading = { heard: '', verdict: 'accept', reply: PASS, confidence: 1, readback } as const;
  const answered = { ...asked, ...recordAnswer(asked, { reading }) };
  return { ...answered, ...decide(answered) };
}
