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

/** What was heard last and what became of it; read aloud by the voice where there is one. */
export function Heard({ seat }: { seat: Seat }) {
  const heard = useSeat(seat, (state) => state.view.heard);
  const silent = useSeat(seat, (state) => state.voice === 'none');
  return (
    <div aria-live={silent ? 'polite' : 'off'}>{heard !== null && <Words heard={heard} />}</div>
  );
}

function Words({ heard }: { heard: NonNullable<View['heard']> }) {
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
