import { OWN_LANGUAGE } from '../cues/languages';
import { LANGUAGES, otherCues, ownCues, type Cues } from '../cues/page';
import { keptText } from './keptText';

const kept = keptText(() => localStorage, 'sayso-language');

/** From the next load of the page on, its cues are in this language. */
export function chooseLanguage(language: string): void {
  kept.save(language);
  location.reload();
}

export interface ChosenCues {
  cues: Cues;
  /** The language that was chosen and whose cues could not be fetched, or null. */
  missing: string | null;
}

/** The cues of the language that was chosen on this device; the page's own where there is none. */
export async function chosenCues(): Promise<ChosenCues> {
  const chosen = kept.load() ?? OWN_LANGUAGE;
  if (chosen === ownCues.book.language || !LANGUAGES.includes(chosen))
    return { cues: ownCues, missing: null };
  try {
    const cues = await otherCues(chosen);
    return { cues: cues ?? ownCues, missing: cues === null ? chosen : null };
  } catch {
    return { cues: ownCues, missing: chosen };
  }
}
