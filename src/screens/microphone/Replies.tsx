import type { HowHeard, ReplyHeard } from '../../session/microphoneCheck';
import { Shape, type ShapeName } from '../Shape';

export const REPLY_SHAPES: Record<HowHeard, ShapeName> = {
  right: 'held',
  almost: 'short',
  other: 'lost',
  unheard: 'notice',
};

export const REPLY_WORDS: Record<HowHeard, string> = {
  right: 'Heard right.',
  almost: 'Almost: a session would ask back.',
  other: 'Taken for something else.',
  unheard: 'Not heard.',
};

/** What became of each reply; nothing before the first. */
export const Replies = ({ heard }: { heard: ReplyHeard[] }) =>
  heard.length === 0 ? null : (
    <ul className="replies" aria-label="What was heard">
      {heard.map(({ text, how, heard: words }) => (
        <li key={text} className={`reply-${how}`}>
          <Shape name={REPLY_SHAPES[how]} />
          <span>
            <strong>{text}</strong>: {REPLY_WORDS[how]}
            {words !== null && how !== 'right' && ` It heard “${words}”.`}
          </span>
        </li>
      ))}
    </ul>
  );
