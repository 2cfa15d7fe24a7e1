/** What a group needs, and the card that lies at each station. */
import type { CueBook } from '../script';
import { drillOf } from './turns';
import type { Needed, WarmUp, WarmUpPart } from './warmUp';

/** Two to forty people are led from one speaker. */
export const PEOPLE = { least: 2, most: 40 } as const;

/** More at one station than their leader sees at once (common practice, no source). */
export const MOST_AT_A_STATION = 8;

/** Stations that do not fit the group. */
export interface Misfit {
  /** Place of the part in the warm-up. */
  part: number;
  stations: number;
  /** At the fullest station. */
  atOnce: number;
  what: 'too-many-people' | 'too-few-people';
}

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

/** Where more stand at a station than can be seen to, or fewer people than stations there are. */
export const misfits = ({ parts }: WarmUp, people: number): Misfit[] =>
  parts.flatMap((part, at): Misfit[] => {
    if (part.arrangement !== 'stations' || part.stations.length === 0) return [];
    const stations = part.stations.length;
    const found = { part: at, stations, atOnce: atOnce(part, people) };
    if (people < stations) return [{ ...found, what: 'too-few-people' }];
    return found.atOnce > MOST_AT_A_STATION ? [{ ...found, what: 'too-many-people' }] : [];
  });

/** How many stations each part of stations has, and how many people stand at the fullest. */
export const crowds = (warmUp: WarmUp, people: number): { stations: number; atOnce: number }[] =>
  stationsOf(warmUp).flatMap((part) =>
    part.stations.length === 0
      ? []
      : [{ stations: part.stations.length, atOnce: atOnce(part, people) }],
  );

const stationsOf = (warmUp: WarmUp): Stations[] =>
  warmUp.parts.filter((part) => part.arrangement === 'stations');

/** The fullest station. */
const atOnce = (part: Stations, people: number): number => Math.ceil(people / part.stations.length);
