import { useState } from 'react';
import { consentMissing, mayBeMinor } from '../../domain/people/age';
import { isInitials } from '../../domain/people/initials';
import { initialsOf } from '../../domain/reporting/sheet/plain';
import { Shape } from '../Shape';

interface Typed {
  name: string;
  birthYear: string;
  guardianAgreedOn?: string;
}

/** The choice of initials while somebody is typed; `name` is what is to be kept. */
export interface Initials {
  /** Nothing is to be chosen where they are grown up. */
  isOffered: boolean;
  isOn: boolean;
  choose: (isOn: boolean) => void;
  name: string;
  /** As they are kept until now; null for somebody new. */
  before: string | null;
}

/** For somebody new it is on until consent is noted; for somebody kept, where it was before. */
export function useInitials(typed: Typed, before: string | null, today: string): Initials {
  const [chosen, choose] = useState<boolean | null>(null);
  const person = {
    birthYear: /^\s*\d{4}\s*$/.test(typed.birthYear) ? Number(typed.birthYear) : null,
    guardianAgreedOn: typed.guardianAgreedOn || null,
  };
  const isOffered = mayBeMinor(person, today);
  const own = before === null ? consentMissing(person, today) : isInitials(before);
  const isOn = isOffered && (chosen ?? own);
  const name = isOn ? initialsOf(typed.name) : typed.name;
  return { isOffered, isOn, choose, before, name };
}

/** Offers to keep somebody under 18 by initials alone. */
export function InitialsOnly({ isOffered, isOn, choose, name, before }: Initials) {
  if (!isOffered) return null;
  const isReplaced = isOn && before !== null && !isInitials(before);
  return (
    <>
      <label className="choice">
        <input type="checkbox" checked={isOn} onChange={({ target }) => choose(target.checked)} />
        Initials only, as for somebody under 18
      </label>
      {isOn && name !== '' && (
        <p className="hint" role="status">
          Kept, shown, said and exported as {name}
        </p>
      )}
      {isReplaced && (
        <p>
          <Shape name="notice" /> {before} is replaced for good: the name is not kept anywhere here.
          Files that were saved before still have it, and so do your own notes where you wrote it.
        </p>
      )}
    </>
  );
}
