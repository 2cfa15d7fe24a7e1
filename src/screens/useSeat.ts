import { useEffect, useReducer, useSyncExternalStore } from 'react';
import type { Seat, SeatState } from './seat';

/** One part of the seat's state; the component renders again only when that part changes. */
export const useSeat = <T>(seat: Seat, part: (state: SeatState) => T): T =>
  useSyncExternalStore(seat.subscribe, () => part(seat.state()));

const TICK_MILLISECONDS = 200;

/** Session seconds, looked up at least five times a second while `running`; never counted. */
export function useNowSeconds(seat: Seat, running: boolean): number {
  const [, lookAgain] = useReducer((looks: number) => looks + 1, 0);
  useEffect(() => {
    if (!running) return undefined;
    const timer = setInterval(lookAgain, TICK_MILLISECONDS);
    return () => clearInterval(timer);
  }, [running]);
  return seat.nowSeconds();
}
