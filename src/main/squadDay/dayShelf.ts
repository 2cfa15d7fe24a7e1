import { WAYS } from '../../domain/areas';
import { squadDayFrom, type SquadDay } from '../../domain/people/squadDay';
import type { Sign, SquadDayChoice } from '../../screens/squadDay/state';
import type { TextStorage } from '../lock/personalTexts';
import { keptText } from '../keptText';
import { signsFrom } from './signs';

/** What is kept of a squad day: ids and what was chosen, no names. */
export interface KeptDay {
  /** Of its cues. */
  language: string;
  choice: Omit<SquadDayChoice, 'people'>;
  day: SquadDay;
  /** Warning signs that were said between two sessions. */
  signs: readonly Sign[];
}

/** Keeps the squad day on this device, so that a closed page can go on with it. */
export interface DayShelf {
  /** Null where none is under way. */
  load(): KeptDay | 'damaged' | null;
  save(kept: KeptDay): void;
  forget(): void;
}

const FORMAT = 'sayso-squad-day-1';

/** In the page's storage. */
export function createDayShelf(storage: () => TextStorage): DayShelf {
  const kept = keptText(storage, 'sayso-squad-day');
  return {
    load() {
      const text = kept.load();
      return text === null || text === '' ? null : (read(text) ?? 'damaged');
    },
    save: (day) => kept.save(JSON.stringify({ format: FORMAT, ...day })),
    forget: () => kept.save(''),
  };
}

type Kept = Record<string, unknown>;

function read(text: string): KeptDay | null {
  try {
    const { format, language, choice, day: turns, signs } = JSON.parse(text) as Kept;
    const day = squadDayFrom(turns);
    if (format !== FORMAT || typeof language !== 'string' || day === null) return null;
    return isChoice(choice) ? { language, choice, day, signs: signsFrom(signs) } : null;
  } catch {
    return null;
  }
}

function isChoice(value: unknown): value is KeptDay['choice'] {
  if (typeof value !== 'object' || value === null) return false;
  const { routine, way, listen, missing } = value as Record<string, unknown>;
  return (
    typeof routine === 'string' &&
    WAYS.some((each) => each === way) &&
    (listen === 'microphone' || listen === 'hands') &&
    Array.isArray(missing) &&
    missing.every((each) => typeof each === 'string')
  );
}
