import type { JSX } from 'react';

/** A shape for every state that also has a colour, so that colour never speaks alone. */
export type ShapeName =
  | 'held'
  | 'lost'
  | 'short'
  | 'pain'
  | 'not-tested'
  | 'stop'
  | 'ear'
  | 'voice'
  | 'left'
  | 'right'
  | 'both'
  | 'notice'
  | 'question';

const SHAPES: Record<ShapeName, JSX.Element> = {
  held: (
    <>
      <circle cx="12" cy="12" r="10" fill="currentColor" />
      <path d="M7 12.5l3.5 3.5L17 9" stroke="var(--paper)" strokeWidth="2.6" fill="none" />
    </>
  ),
  lost: (
    <>
      <path d="M12 1.5L22.5 12 12 22.5 1.5 12z" fill="currentColor" />
      <path d="M13.5 5l-3 5 4 3.5-3 5.5" stroke="var(--paper)" strokeWidth="2.2" fill="none" />
    </>
  ),
  short: (
    <>
      <rect x="1.5" y="9" width="21" height="6" fill="none" stroke="currentColor" strokeWidth="2" />
      <rect x="1.5" y="8" width="10" height="8" fill="currentColor" />
    </>
  ),
  pain: (
    <>
      <path d="M12 1.5L23 21.5H1z" fill="currentColor" />
      <path d="M12 9v6M12 17v2.4" stroke="var(--paper)" strokeWidth="2.4" />
    </>
  ),
  'not-tested': (
    <circle
      cx="12"
      cy="12"
      r="9.5"
      fill="none"
      stroke="currentColor"
      strokeWidth="2.2"
      strokeDasharray="4 3.5"
    />
  ),
  stop: <rect x="3" y="3" width="18" height="18" rx="2" fill="currentColor" />,
  ear: (
    <path
      d="M7 14a5.5 5.5 0 1 1 10-3.2c0 3.2-3 3.8-3 6.7a3 3 0 0 1-5.6 1.4M9.5 11a2.6 2.6 0 1 1 4 2.3"
      fill="none"
      stroke="currentColor"
      strokeWidth="2.2"
      strokeLinecap="round"
    />
  ),
  voice: (
    <path
      d="M3 9v6h4l6 5V4L7 9zM16.5 8.5a5 5 0 0 1 0 7M19 5.5a9 9 0 0 1 0 13"
      fill="none"
      stroke="currentColor"
      strokeWidth="2.2"
      strokeLinejoin="round"
      strokeLinecap="round"
    />
  ),
  left: <path d="M15 2L3 12l12 10v-6h6V8h-6z" fill="currentColor" />,
  right: <path d="M9 2l12 10L9 22v-6H3V8h6z" fill="currentColor" />,
  both: <path d="M8 4L1 12l7 8v-5h8v5l7-8-7-8v5H8z" fill="currentColor" />,
  notice: (
    <>
      <rect x="2" y="2" width="20" height="20" rx="5" fill="currentColor" />
      <path d="M12 6v7.5M12 16v2.5" stroke="var(--paper)" strokeWidth="2.6" />
    </>
  ),
  question: (
    <path
      d="M7.5 8.5a4.5 4.5 0 1 1 6.5 4c-1.5.8-2 1.5-2 3M12 18.5v2.200"
      fill="none"
      stroke="currentColor"
      strokeWidth="2.6"
      strokeLinecap="round"
    />
  ),
};

/** A small drawing beside a word; hidden from screen readers, which have the word. */
export const Shape = ({ name }: { name: ShapeName }) => (
  <svg className={`shape shape-${name}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
    {SHAPES[name]}
  </svg>
);
