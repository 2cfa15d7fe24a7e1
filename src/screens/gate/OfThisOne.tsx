import { AREAS } from '../../domain/areas';
import { mayBeMinor } from '../../domain/people/age';
import { dateInWords } from '../dates';
import type { PersonKnown } from '../people/state';
import { Shape } from '../Shape';
import { AREA_WORDS } from '../words';

/** What has to be kept in mind of this athlete before anything begins; nothing where there is none. */
export function OfThisOne({
  known: { person, open },
  today,
}: {
  known: PersonKnown;
  today: string;
}) {
  const { mindText, guardianAgreedOn } = person;
  const waiting = AREAS.filter((area) => open[area]?.waits === true);
  const lines = [
    ...(mindText === '' ? [] : [`Keep in mind: ${mindText}`]),
    ...waiting.map(
      (area) => `${AREA_WORDS[area]}: a licensed professional decides before it goes on.`,
    ),
    ...(mayBeMinor(person, today) ? [consentWords(guardianAgreedOn)] : []),
  ];
  if (lines.length === 0) return null;
  return (
    <ul className="of-this-one" aria-label={`Of ${person.name}`}>
      {lines.map((line) => (
        <li key={line}>
          <Shape name="notice" /> <span>{line}</span>
        </li>
      ))}
    </ul>
  );
}

/** Of somebody who may be under 18. */
export const consentWords = (agreedOn: string | null): string =>
  agreedOn === null
    ? 'May be under 18, and no consent of a guardian is noted.'
    : `May be under 18. A guardian agreed on ${dateInWords(agreedOn)}.`;
