import { useRef, useState, type PointerEvent, type ReactNode } from 'react';
import { UpAndDown } from '../../forms/UpAndDown';
import { moved } from './draft';

interface MovableListProps<T> {
  label: string;
  className: string;
  items: readonly T[];
  onChange: (items: T[]) => void;
  nameOf: (item: T, at: number) => string;
  /** `moves`: what takes it elsewhere, to be placed in its head. */
  children: (item: T, at: number, moves: ReactNode) => ReactNode;
}

interface Dragged {
  from: number;
  to: number;
  startPixels: number;
  byPixels: number;
  /** Middle of each item on the page as it began. */
  middles: number[];
}

/** So near to an edge of the window the page goes on under what is dragged. */
const EDGE_PIXELS = 60;
const SCROLL_PIXELS = 14;

/** A list whose items are dragged, or taken up and down with buttons and keys. */
export function MovableList<T extends { key: string }>(props: MovableListProps<T>) {
  const { label, className, items, onChange, nameOf, children } = props;
  const list = useRef<HTMLOListElement>(null);
  const [dragged, setDragged] = useState<Dragged | null>(null);
  const [told, setTold] = useState('');

  const move = (from: number, to: number) => {
    const item = items[from];
    if (item === undefined || to < 0 || to >= items.length || from === to) return;
    onChange(moved(items, from, to));
    setTold(`${nameOf(item, from)} is now ${to + 1} of ${items.length}.`);
  };
  /** The keyboard stays with what it moves; at an end the other button is the one that is left. */
  const step = (at: number, by: -1 | 1) => {
    const key = items[at]?.key;
    move(at, at + by);
    const isAtEnd = at + by === 0 || at + by === items.length - 1;
    const wanted = isAtEnd ? -by : by;
    requestAnimationFrame(() =>
      list.current
        ?.querySelector<HTMLButtonElement>(`[data-key="${key}"] [data-by="${wanted}"]`)
        ?.focus(),
    );
  };

  const begin = (from: number) => (event: PointerEvent<HTMLElement>) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    const middles = [...(list.current?.children ?? [])].map((item) => {
      const { top, height } = item.getBoundingClientRect();
      return top + height / 2 + window.scrollY;
    });
    const startPixels = event.clientY + window.scrollY;
    setDragged({ from, to: from, startPixels, byPixels: 0, middles });
  };
  const drag = (event: PointerEvent<HTMLElement>) => {
    if (dragged === null) return;
    if (event.clientY < EDGE_PIXELS) window.scrollBy(0, -SCROLL_PIXELS);
    if (event.clientY > window.innerHeight - EDGE_PIXELS) window.scrollBy(0, SCROLL_PIXELS);
    const at = event.clientY + window.scrollY;
    const to = dragged.middles.filter((middle, index) => index !== dragged.from && middle < at);
    setDragged({ ...dragged, to: to.length, byPixels: at - dragged.startPixels });
  };
  const drop = () => {
    if (dragged !== null) move(dragged.from, dragged.to);
    setDragged(null);
  };

  const classOf = (at: number) => {
    if (dragged === null) return '';
    const { from, to } = dragged;
    if (at === from) return 'dragged';
    if (at !== to) return '';
    // The line where it would come to lie.
    return to < from ? 'drop-before' : 'drop-after';
  };
  return (
    <>
      <ol className={className} ref={list} aria-label={label}>
        {items.map((item, at) => {
          const name = nameOf(item, at);
          const moves = items.length > 1 && (
            <span className="moves">
              <span
                className="handle"
                aria-hidden="true"
                title="Drag it elsewhere"
                onPointerDown={begin(at)}
                onPointerMove={drag}
                onPointerUp={drop}
                onPointerCancel={() => setDragged(null)}
              >
                ⠿
              </span>
              <UpAndDown {...{ name, at }} of={items.length} move={step} />
            </span>
          );
          return (
            <li
              key={item.key}
              data-key={item.key}
              className={classOf(at)}
              style={
                dragged?.from === at
                  ? { transform: `translateY(${dragged.byPixels}px)` }
                  : undefined
              }
            >
              {children(item, at, moves)}
            </li>
          );
        })}
      </ol>
      <p role="status" className="only-read">
        {told}
      </p>
    </>
  );
}
