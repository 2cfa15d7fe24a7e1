import type { DrawnCode } from './state';

/** A QR code, black on white in every theme: what reads it knows no other. */
export const Code = ({ code: { size, path }, name }: { code: DrawnCode; name: string }) => (
  <svg className="qr" role="img" aria-label={name} viewBox={`0 0 ${size} ${size}`}>
    <rect width={size} height={size} fill="white" />
    <path d={path} fill="black" shapeRendering="crispEdges" />
  </svg>
);
