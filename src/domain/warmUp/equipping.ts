/** What a group needs, and the card that lies at each station. */
import type { CueBook } from '../script';
import { drillOf } from './turns';
import type { Needed, WarmUp, WarmUpPart } from './warmUp';

/** Two to forty people are led from one speaker. */
export const PEOPLE = { least: 2, most: 40 } as const;

/** For printing: what is done at a station, and what lies there. */
export interface StationCard {
  /** From 1. */
  station: number;
  name: string;
  demo: string;
  good: string;
  caution: string;
  /** People who work there at once. */
  people: number;
  equipment: { name: string; count: number }[];
}

type Stations = Extract<WarmUpPart, { arrangement: 'stations' }>;

/**
 * How many of each thing `people` need: where all work together one each, of what is needed most;
 * at stations as many as stand there at once.
 */
export function neededFor(book: CueBook, warmUp: WarmUp, people: number): Needed[] {
  const together = new Set(
    warmUp.parts.flatMap((part) =>
      part.arrangement === 'stations'
        ? []
        : part.blocks.flatMap((block) =>
            block.do === 'work' ? drillOf(book, block.drill).equipment : [],
          ),
    ),
  );
  return [
    ...[...together].map((equipment) => ({ equipment, count: people, station: null })),
    ...stationsOf(warmUp).flatMap((part) =>
      part.stations.flatMap(({ drill }, index) =>
        drillOf(book, drill).equipment.map((equipment) => ({
          ...{ equipment, count: atOnce(part, people), station: index + 1 },
        })),
      ),
    ),
  ];
}

/** A card for each station, in order; none where everybody works together throughout. */
export const stationCards = (book: CueBook, warmUp: WarmUp, people: number): StationCard[] =>
  stationsOf(warmUp).flatMap((part) =>
    part.stations.map(({ drill: id, demo }, index) => {
      const { name, good, caution, equipment } = drillOf(book, id);
      const there = atOnce(part, people);
      return {
        ...{ station: index + 1, name, demo, good, caution, people: there },
        equipment: equipment.map((thing) => ({
          name: book.equipment[thing]?.name ?? thing,
          count: there,
        })),
      };
    }),
  );

const stationsOf = (warmUp: WarmUp): Stations[] =>
  warmUp.parts.filter((part) => part.arrangement === 'stations');

/** The fullest station. */
const atOnce = (part: Stations, people: number): number => Math.ceil(people / part.stations.length);
