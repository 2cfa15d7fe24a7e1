/** A warm-up while it is built: as typed, so that nothing typed is lost while it is wrong. */
import type { CueBook, DrillId } from '../../../domain/script';
import { demoOf } from '../../../domain/warmUp/own';
import type { WarmUp, WarmUpBlock, WarmUpPart } from '../../../domain/warmUp/warmUp';
import { typedNumber } from '../words';

export interface BlockDraft {
  /** Names it while it is on the screen. */
  key: string;
  /** Null: long breaths out. */
  drill: DrillId | null;
  name: string;
  /** Empty: the drill's own. */
  demo: string;
  work: string;
  change: string;
  breaths: string;
  exhale: string;
}

export interface PartDraft {
  key: string;
  arrangement: WarmUpPart['arrangement'];
  rounds: string;
  /** Of stations, which all take the same time. */
  work: string;
  change: string;
  blocks: BlockDraft[];
}

export interface Draft {
  id: string;
  name: string;
  parts: PartDraft[];
}

let last = 0;
const newKey = (): string => `${(last += 1)}`;

const USUAL = { work: '30', change: '15', breaths: '5', exhale: '6' } as const;

export const newPart = (arrangement: PartDraft['arrangement']): PartDraft => ({
  ...{ key: newKey(), arrangement, rounds: '1', blocks: [] },
  ...{ work: USUAL.work, change: USUAL.change },
});

export const newBlock = (change: Partial<BlockDraft>): BlockDraft => ({
  ...{ key: newKey(), drill: null, name: '', demo: '', ...USUAL, ...change },
});

/** Long exhales, counted aloud. */
export const newBreaths = (): BlockDraft =>
  newBlock({
    name: 'long breaths out',
    demo: 'Lie on your back, feet flat, one hand on your lower ribs.',
  });

export const copyOf = (block: BlockDraft): BlockDraft => ({ ...block, key: newKey() });

/** With the one at `from` taken to `to`. */
export function moved<T>(list: readonly T[], from: number, to: number): T[] {
  const others = list.filter((_, at) => at !== from);
  const one = list[from];
  return one === undefined ? others : [...others.slice(0, to), one, ...others.slice(to)];
}

export function draftOf(book: CueBook, { id, name, parts }: WarmUp): Draft {
  /** Empty where nothing else was typed, so that another drill brings its own. */
  const typed = (drill: DrillId, demo: string) => {
    const script = book.drills[drill];
    return script !== undefined && demoOf(script) === demo ? '' : demo;
  };
  const blockFrom = (block: WarmUpBlock): BlockDraft =>
    block.do === 'breathe'
      ? newBlock({
          ...{ name: block.name, demo: block.demo, change: `${block.changeSeconds}` },
          ...{ breaths: `${block.breaths}`, exhale: `${block.exhaleSeconds}` },
        })
      : newBlock({
          ...{ drill: block.drill, demo: typed(block.drill, block.demo) },
          ...{ work: `${block.workSeconds}`, change: `${block.changeSeconds}` },
        });
  return {
    ...{ id, name },
    parts: parts.map((part) =>
      part.arrangement === 'together'
        ? {
            ...newPart('together'),
            ...{ rounds: `${part.rounds}`, blocks: part.blocks.map(blockFrom) },
          }
        : {
            ...newPart('stations'),
            ...{ rounds: `${part.rounds}`, work: `${part.workSeconds}` },
            change: `${part.changeSeconds}`,
            blocks: part.stations.map(({ drill, demo }) =>
              newBlock({ drill, demo: typed(drill, demo) }),
            ),
          },
    ),
  };
}

/** As it stands; what is typed and is no number becomes NaN, which nothing takes. */
export function warmUpFrom(book: CueBook, { id, name, parts }: Draft): WarmUp {
  const shown = ({ drill, demo }: BlockDraft): string => {
    const script = drill === null ? undefined : book.drills[drill];
    return demo.trim() === '' && script !== undefined ? demoOf(script) : demo.trim();
  };
  return {
    ...{ id, name: name.trim() },
    parts: parts.map((part): WarmUpPart =>
      part.arrangement === 'stations'
        ? {
            ...{ arrangement: 'stations', rounds: typedNumber(part.rounds) },
            ...{ workSeconds: typedNumber(part.work), changeSeconds: typedNumber(part.change) },
            stations: part.blocks.map((block) => ({
              drill: block.drill ?? '',
              demo: shown(block),
            })),
          }
        : {
            ...{ arrangement: 'together', rounds: typedNumber(part.rounds) },
            blocks: part.blocks.map((block): WarmUpBlock =>
              block.drill === null
                ? {
                    ...{ do: 'breathe', name: block.name.trim(), demo: shown(block) },
                    ...{
                      breaths: typedNumber(block.breaths),
                      exhaleSeconds: typedNumber(block.exhale),
                    },
                    changeSeconds: typedNumber(block.change),
                  }
                : {
                    ...{ do: 'work', drill: block.drill, demo: shown(block) },
                    ...{
                      workSeconds: typedNumber(block.work),
                      changeSeconds: typedNumber(block.change),
                    },
                  },
            ),
          },
    ),
  };
}
