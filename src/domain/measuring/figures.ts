/**
 * `published`: read in the source named. `secondary`: read in a work that cites it. `computed`:
 * worked out again from the source. `practice`: common practice, no source. `from-memory`: not
 * checked, so no function counts with it.
 */
export type FigureStatus = 'published' | 'secondary' | 'computed' | 'practice' | 'from-memory';

/** A number that Sayso did not make up, with where it comes from. */
export interface Figure {
  value: number;
  source: string;
  status: FigureStatus;
}

/** A figure that a function may count with. */
export type UsableFigure = Figure & { status: Exclude<FigureStatus, 'from-memory'> };

const ANSUR = 'regression of mid-patella height on stature over both sexes of ANSUR II, n = 6068';
const VAIRO = 'Vairo 2012, Table 4: active shoulder flexion of healthy young adults, degrees';
const ACSM = 'American College of Sports Medicine 2009, progression models in resistance training';
const LISTENING = 'WHO-ITU H.870, safe listening devices and systems';

/** Every figure that measuring counts with; units stand in the names. */
export const FIGURES = {
  kneeInterceptMillimetres: { value: -84.73, source: ANSUR, status: 'computed' },
  kneePerStature: { value: 0.32678, source: ANSUR, status: 'computed' },
  /** Standard error of that estimate: two thirds of adults lie within it. */
  kneeErrorMillimetres: { value: 15.1, source: ANSUR, status: 'computed' },
  competitionBellMillimetres: {
    value: 280,
    source: 'height of a competition bell, in descriptions of the rules; cast bells differ',
    status: 'secondary',
  },

  flexionP5MaleDegrees: { value: 153, source: VAIRO, status: 'published' },
  flexionP50MaleDegrees: { value: 165, source: VAIRO, status: 'published' },
  flexionP95MaleDegrees: { value: 179, source: VAIRO, status: 'published' },
  flexionP5FemaleDegrees: { value: 155, source: VAIRO, status: 'published' },
  flexionP50FemaleDegrees: { value: 168, source: VAIRO, status: 'published' },
  flexionP95FemaleDegrees: { value: 180, source: VAIRO, status: 'published' },

  z90: { value: 1.6449, source: 'Weir 2005: two-sided 90 % of the normal', status: 'published' },
  z95: { value: 1.96, source: 'Weir 2005: two-sided 95 % of the normal', status: 'published' },
  wilsonZ: {
    value: 1.959964,
    source: 'two-sided 95 % of the normal, as Newcombe 1998 takes it for Wilson intervals',
    status: 'computed',
  },

  inclinometerActiveMdc90Degrees: {
    value: 8,
    source: 'Kolber 2011: MDC90 of active shoulder flexion between two raters',
    status: 'published',
  },
  inclinometerPassiveMdc95Degrees: {
    value: 34,
    source: 'Dougherty 2015: MDC95 from the SEM of 12.3 degrees of passive shoulder flexion',
    status: 'computed',
  },
  byEyeMdc95Degrees: {
    value: 30,
    source: 'Hayes 2001: SEM 11 to 25 degrees by eye; 30 is the MDC95 of the smallest',
    status: 'computed',
  },

  sideNotedDegrees: { value: 5, source: 'common practice, no source', status: 'practice' },
  sideCalledDegrees: {
    value: 10,
    source: 'common practice, above the MDC90 of 8 degrees in Kolber 2011',
    status: 'practice',
  },

  leastLoadStep: { value: 0.02, source: ACSM, status: 'published' },
  mostLoadStep: { value: 0.1, source: ACSM, status: 'published' },

  weeklyListeningHours: { value: 40, source: LISTENING, status: 'published' },
  listeningDecibels: { value: 80, source: LISTENING, status: 'published' },
  childListeningDecibels: { value: 75, source: LISTENING, status: 'published' },
  /** So many decibels more halve the time. */
  halvingDecibels: { value: 3, source: LISTENING, status: 'published' },
} as const satisfies Record<string, Figure>;

/**
 * The number of a figure, to count with. Throws where it is only remembered, which the types
 * refuse already.
 */
export function valueOf(figure: UsableFigure): number {
  const { value, source }: Figure = figure;
  if ((figure as Figure).status === 'from-memory') {
    throw new Error(
      `${value} (${source}) is from memory: check it before anything counts with it.`,
    );
  }
  return value;
}
