import type { AngleTool, Result } from '../../../src/domain/findings';
import type { Telling } from '../deciding/logging';

/** A result at the step at hand with an angle, read with a tool. */
export function saying(
  told: Telling,
  result: Result,
  angleDegrees: number | null,
  tool: AngleTool = 'inclinometer',
): Telling {
  told.say(result);
  const last = told.entries.pop();
  if (last?.type !== 'finding') throw new Error('nothing was found');
  told.entries.push({ ...last, angleDegrees, tool: angleDegrees === null ? null : tool });
  return told;
}

/** The ladder at hand left out, up to the retest. */
export function toRetest(told: Telling): Telling {
  while (told.step.do === 'set') told.coach('next');
  return told;
}
