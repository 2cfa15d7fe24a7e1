import { useEffect, useRef } from 'react';
import { keyName } from '../../domain/hearing/deeds';
import type { Seat } from '../seat';

/** Keys that press the control which has the keyboard. */
const PRESSES = ['Enter', ' '];

/**
 * Tells the next key that is pressed alone, before anything on the page has it, or a button of a
 * headset. Tab still moves, and a button that it moved to can still be pressed; a key that is held
 * down is told once.
 */
export function usePressed(seat: Seat, told: (key: string) => void): void {
  const tell = useRef(told);
  useEffect(() => {
    tell.current = told;
  });
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Tab' || event.ctrlKey || event.altKey || event.metaKey) return;
      const isOnButton = event.target instanceof Element && event.target.closest('button') !== null;
      if (isOnButton && PRESSES.includes(event.key)) return;
      event.preventDefault();
      event.stopPropagation();
      if (!event.repeat) tell.current(keyName(event.key));
    };
    window.addEventListener('keydown', onKey, { capture: true });
    const deafen = seat.keys.hearHeadset((key) => tell.current(key));
    return () => {
      window.removeEventListener('keydown', onKey, { capture: true });
      deafen();
    };
  }, [seat]);
}
