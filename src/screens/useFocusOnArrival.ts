import { useLayoutEffect, useRef, type RefObject } from 'react';

/**
 * Puts the keyboard and the screen reader at this element as it comes, and again whenever `on`
 * changes. The element has to take a focus: `tabIndex={-1}` where it does not by itself.
 */
export function useFocusOnArrival<E extends HTMLElement>(on?: unknown): RefObject<E | null> {
  const element = useRef<E>(null);
  // Before the screen is painted: a key that is pressed at once must find its place.
  useLayoutEffect(() => element.current?.focus(), [on]);
  return element;
}
