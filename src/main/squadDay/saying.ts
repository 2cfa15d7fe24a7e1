import { numberCounting } from '../../domain/hearing/numbers';
import { toCome, type SquadDay } from '../../domain/people/squadDay';
import { say } from '../../domain/saying';
import type { CueBook } from '../../domain/script';

/**
 * What is said before the next one's session: who it is, how many come after, and what to say. No
 * result is ever said with a name.
 */
export function nextTexts({ lines, vocabulary }: CueBook, day: SquadDay, name: string): string[] {
  const [next, ...after] = toCome(day);
  const isOpen = next?.session != null;
  const number = numberCounting(vocabulary.numbers, after.length);
  const left =
    after.length === 0
      ? say(lines, 'say.to-come-none', {})
      : after.length === 1
        ? say(lines, 'say.to-come-one', {})
        : say(lines, 'say.to-come-many', { number: capital(number) });
  return [
    say(lines, isOpen ? 'say.next-again' : 'say.next-is', { name }),
    ...[left, say(lines, 'say.when-ready', {})],
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
