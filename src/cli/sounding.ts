import { soundFileParts, type ToMix } from '../mixing/soundFile';
import { fliteInNode } from '../voice/node';
import type { Rehearsed } from './rehearsing';

/** The sound file of what is mixed, in one piece. */
export async function soundFileOf(toMix: ToMix): Promise<Uint8Array> {
  const { synthesize } = await fliteInNode();
  const parts: Uint8Array[] = [];
  for await (const { bytes } of soundFileParts(toMix, synthesize)) parts.push(bytes);
  return Buffer.concat(parts);
}

/** What would be heard of a rehearsal. */
export const rehearsalToMix = ({
  said,
  timeline,
}: Pick<Rehearsed, 'said' | 'timeline'>): ToMix => ({
  said,
  tones: timeline.flatMap((event) =>
    event.type === 'tone' ? [{ name: event.name, atSeconds: event.atSeconds }] : [],
  ),
  seconds: Math.max(
    0,
    ...said.map(({ toSeconds }) => toSeconds),
    ...timeline.map(({ atSeconds }) => atSeconds),
  ),
});
