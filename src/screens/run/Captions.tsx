import type { Verdict } from '../../domain/hearing/reply';
import type { Seat } from '../seat';
import { Shape, type ShapeName } from '../Shape';
import { useSeat } from '../useSeat';
import type { View } from '../view';

const VERDICTS: Record<Verdict, { shape: ShapeName; words: string }> = {
  accept: { shape: 'held', words: 'taken' },
  confirm: { shape: 'question', words: 'to be sure' },
  ignore: { shape: 'not-tested', words: 'not a reply' },
};

/**
 * What is being spoken and what was heard. The voice says all of it aloud, so a screen reader is
 * not told again (it would talk over the cue); only where there is no voice is the region live.
 */
export function Captions({ seat }: { seat: Seat }) {
  const cue = useSeat(seat, (state) => state.view.cue);
  const heard = useSeat(seat, (state) => state.view.heard);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  return (
    <section className="captions" aria-label="Captions" aria-live={silent ? 'polite' : 'off'}>
      <p className="cue">
        <Shape name="voice" />
        <span>{cue?.text ?? '…'}</span>
      </p>
      {heard !== null && <Heard heard={heard} />}
    </section>
  );
}

function Heard({ heard }: { heard: NonNullable<View['heard']> }) {
  const { shape, words } = VERDICTS[heard.verdict];
  return (
    <p className={`heard heard-${heard.verdict}`}>
      <Shape name={shape} />
      <span>
        <span className="label">{heard.text === '' ? 'By hand' : 'Heard'}</span>{' '}
        {heard.text === '' ? heard.readback : `“${heard.text}”`}
        {heard.text !== '' && heard.readback !== null && ` → ${heard.readback}`}
        <span className="verdict"> ({words})</span>
      </span>
    </p>
  );
}
