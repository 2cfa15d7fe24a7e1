import { useLayoutEffect } from 'react';
import { commandOf } from './run/replies';
import type { Seat } from './seat';

const USES_KEYS = 'button, a, input, select, textarea, summary';

/** Keys of a keyboard, pedal or remote answer, as soon as the screen is seen; Escape is always "stop". */
export function useSessionKeys(seat: Seat): void {
  useLayoutEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === 'Escape') {
        event.preventDefault();
        seat.reply(commandOf('stop'));
      } else if (!isUsed(event)) seat.key(event);
    };
    window.addEventListener('keydown', onKey);
    window.addEventListener('click', letGo);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('click', letGo);
    };
  }, [seat]);
}

/**
 * What was tapped does not keep the keyboard: a pedal's Space would press it again instead of
 * answering. What was pressed by key keeps it.
 */
function letGo({ detail, target }: MouseEvent): void {
  if (detail === 0 || !(target instanceof Element)) return;
  const tapped = target.closest<HTMLElement>('button, summary');
  if (tapped === null || document.activeElement !== tapped) return;
  tapped.blur();
  tapped.closest('main')?.focus({ preventScroll: true });
}

/** Enter and Space belong to the control that has the focus; every other key is the session's. */
const isUsed = ({ key, target }: KeyboardEvent): boolean => {
  if (key === 'Tab') return true;
  if (!(target instanceof Element)) return false;
  if (target.matches('input, select, textarea')) return true;
  return (key === 'Enter' || key === ' ') && target.matches(USES_KEYS);
};
