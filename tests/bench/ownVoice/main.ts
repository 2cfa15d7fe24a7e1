import { parseArgs } from 'node:util';
import { ownVoiceFigure } from './ownVoice';

/**
 * `npm run bench own-voice -- [--minutes N] [--decibels=D,...] [--shard I/N]`: a session of Sayso's own voice,
 * fed back into its ear; nothing of it may be taken for a reply.
 */
export async function benchOwnVoice(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      minutes: { type: 'string', default: '20' },
      decibels: { type: 'string', default: '-6,-12,-20' },
      shard: { type: 'string', default: '1/1' },
    },
  });
  const minutes = Number(values.minutes);
  const levels = values.decibels.split(',').map(Number);
  const [part = NaN, of = NaN] = values.shard.split('/').map(Number);
  if (
    !(minutes > 0 && part >= 1 && part <= of) ||
    levels.some((level) => !Number.isFinite(level))
  ) {
    console.error(
      'Usage: npm run bench own-voice -- [--minutes N] [--decibels=-6,-12,-20] [--shard I/N]',
    );
    process.exitCode = 2;
    return;
  }
  for (const decibels of levels)
    console.log(
      JSON.stringify(await ownVoiceFigure('readiness', minutes * 60, decibels, [], { part, of })),
    );
}
