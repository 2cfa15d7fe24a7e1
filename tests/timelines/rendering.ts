import type { Finding } from '../../src/domain/findings';
import type { TimedEvent } from '../../src/cli/rehearsalHall';
import type { Rehearsed } from '../../src/cli/rehearsing';

/**
 * A rehearsed session as text to be read: one line an event, with its time (minutes:seconds) and
 * who acts. Counts of a row are joined on one line; phases, which only the screen shows, are left
 * out; the soft tone and the question it opens are one line.
 */
export function readable(rehearsed: Rehearsed): string {
  const cutOff = new Set(
    rehearsed.said.filter(({ isCutOff }) => isCutOff).map(({ fromSeconds }) => moment(fromSeconds)),
  );
  const deciders = rehearsed.entries.flatMap((entry) =>
    entry.type === 'decision' ? [entry.by] : [],
  );
  const events = rehearsed.timeline.filter(({ type }) => type !== 'phase');
  const lines: string[] = [];
  let counts: string[] = [];
  let countsFrom = 0;
  const put = (atSeconds: number, who: string, what: string) =>
    lines.push(`${clock(atSeconds)}  ${who.padEnd(8)}${what}`);
  const putCounts = () => {
    if (counts.length > 0) put(countsFrom, 'counts', counts.join(' '));
    counts = [];
  };
  events.forEach((event, index) => {
    const { atSeconds } = event;
    const [before, next] = [events[index - 1], events[index + 1]];
    if (event.type === 'beat') {
      if (counts.length === 0) countsFrom = atSeconds;
      const isHeard = next?.type === 'cue' && next.atSeconds === atSeconds;
      counts.push(isHeard ? next.text : isTick(next) ? '(tone)' : '(silent)');
      return;
    }
    if (event.type === 'cue' && before?.type === 'beat' && before.atSeconds === atSeconds) return;
    if (isTick(event) && counts.length > 0) return;
    // What is said between two counts belongs to their row: "Stay.", "Breathe in."
    if (
      event.type === 'cue' &&
      counts.length > 0 &&
      /^(Stay|Breathe|Ahí)[^\p{L}]/u.test(event.text)
    ) {
      counts.push(event.text);
      return;
    }
    putCounts();
    if (event.type === 'tone' && event.name === 'listening' && next?.type === 'listen') return;
    const by = event.type === 'decision' ? (deciders.shift() ?? 'rules') : 'rules';
    const [who, what] = told(event, by);
    put(
      atSeconds,
      who,
      event.type === 'cue' && cutOff.has(moment(atSeconds)) ? `${what} [cut off]` : what,
    );
  });
  putCounts();
  return `${lines.join('\n')}\n`;
}

const isTick = (event?: TimedEvent): boolean =>
  event?.type === 'tone' && event.name === 'countdown';

function told(event: TimedEvent, by: 'rules' | 'coach'): [who: string, what: string] {
  switch (event.type) {
    case 'cue':
      return ['Sayso', event.text];
    case 'tone':
      return ['tone', event.name];
    case 'listen':
      return ['tone', `listening, hears at ${event.prompt}`];
    case 'heard':
      return ['coach', `"${event.text}" ${event.verdict}${read(event)}`];
    case 'finding':
      return ['finding', [event.prompt, ...findingWords(event), event.load ?? ''].join(' ').trim()];
    case 'decision':
      return ['decided', `${event.from ?? '-'} to ${event.to ?? '-'} (${event.rule}, ${by})`];
    case 'step':
      return ['step', stepWords(event)];
    case 'outcome':
      return ['area', areaWords(event)];
    case 'tilt':
      return ['level', `${event.on} ${event.degrees ?? '-'} ${event.verdict}`];
    case 'trouble':
      return ['trouble', event.what];
    case 'end':
      return [
        'end',
        `${event.reason}: ${event.areas.map(areaWords).join(', ')}; ` +
          `lifts: ${event.liftsReady.join(', ') || 'none'}; findings: ${event.findings.length}`,
      ];
    case 'heard-nothing':
    case 'beat':
    case 'phase':
      return [event.type, ''];
  }
}

const read = ({ readback }: Extract<TimedEvent, { type: 'heard' }>): string =>
  readback === null ? '' : `: ${readback}`;

const findingWords = ({ side, result, faults, angleDegrees, pain }: Finding): string[] => [
  ...(side === null ? [] : [side]),
  result,
  ...faults,
  ...(angleDegrees === null ? [] : [`${angleDegrees} degrees`]),
  ...(pain === null ? [] : [`pain ${pain}`]),
];

const stepWords = ({ prompt, side, set, of, rung }: Extract<TimedEvent, { type: 'step' }>) =>
  [
    prompt,
    ...(side === null ? [] : [side]),
    ...(set === null ? [] : [`set ${set}${of === null ? '' : ` of ${of}`}`]),
    ...(rung === null ? [] : [`rung ${rung}`]),
  ].join(' ');

const areaWords = ({
  area,
  outcome,
  rung,
}: {
  area: string;
  outcome: string;
  rung: number | null;
}) => `${area} ${outcome}${rung === null ? '' : ` at rung ${rung}`}`;

/** 75.24 is "01:15.2". */
function clock(atSeconds: number): string {
  const tenths = Math.round(atSeconds * 10);
  const minutes = String(Math.floor(tenths / 600)).padStart(2, '0');
  return `${minutes}:${((tenths % 600) / 10).toFixed(1).padStart(4, '0')}`;
}

/** Milliseconds, so that times of one moment are the same key. */
const moment = (seconds: number): number => Math.round(seconds * 1000);
