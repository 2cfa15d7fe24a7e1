import { z } from 'zod';
import { EXHALE_SECONDS } from '../../domain/pacing/line';
import {
  BREATHS,
  CHANGE_SECONDS,
  ROUNDS,
  WORK_SECONDS,
  type WarmUp,
} from '../../domain/warmUp/warmUp';
import { count, fields, id, seconds, spoken } from './fields';

const workSeconds = seconds(WORK_SECONDS.least, WORK_SECONDS.most);
const changeSeconds = seconds(CHANGE_SECONDS.least, CHANGE_SECONDS.most).describe(
  'To get ready before it; longer where what is said takes longer',
);
const drill = id.describe('Gives its name, sides, equipment and caution');
const demo = spoken.describe('What the leader shows before it is done for the first time');
const rounds = count(ROUNDS.least, ROUNDS.most);

/** A file of scripts-cues/LANGUAGE/warm-ups: what one speaker leads a group through. */
export const warmUpSchema = fields({
  id: id.describe('The name of the file, without .yaml'),
  name: spoken.describe('As spoken inside a sentence: "the warm-up before the bar"'),
  parts: z
    .array(
      z.discriminatedUnion(
        'arrangement',
        [
          fields({
            arrangement: z.literal('together'),
            rounds,
            blocks: z
              .array(
                z.discriminatedUnion(
                  'do',
                  [
                    fields({ do: z.literal('work'), drill, demo, workSeconds, changeSeconds }),
                    fields({
                      do: z.literal('breathe'),
                      name: spoken,
                      demo,
                      breaths: count(BREATHS.least, BREATHS.most),
                      exhaleSeconds: count(EXHALE_SECONDS.least, EXHALE_SECONDS.most),
                      changeSeconds,
                    }),
                  ],
                  { error: 'do must be work or breathe' },
                ),
              )
              .min(1, 'needs at least one block'),
          }),
          fields({
            arrangement: z.literal('stations'),
            rounds,
            stations: z.array(fields({ drill, demo })).min(2, 'needs at least two stations'),
            workSeconds,
            changeSeconds,
          }),
        ],
        { error: 'arrangement must be together or stations' },
      ),
    )
    .min(1, 'needs at least one part'),
}) satisfies z.ZodType<WarmUp>;
