import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Seat, SeatState } from './seat';

/** One part of the seat's state; the component renders again only when that part changes. */
export const useSeat = <T>(seat: Seat, part: (state: SeatState) => T): T =>
  useSyncExternalStore(seat.subscribe, () => part(seat.state()));

const TICK_MILLISECONDS = 200;

/** Session seconds, looked up five times a second while `running`; ticks are never counted. */
export function useNowSeconds(seat: Seat, running: boolean): number {
  const [nowSeconds, setNowSeconds] = useState(() => seat.nowSeconds());
  useEffect(() => {
    if (!running) return undefined;
    const look = () => setNowSeconds(seat.nowSeconds());
    look();
    const timer = setInterval(look, TICK_MILLISECONDS);
    return () => clearInterval(timer);
  }, [seat, running]);
  return nowSeconds;
}
