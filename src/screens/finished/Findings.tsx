import type { CueBook } from '../../domain/script';
import { counting, isOther, saidIn, type SaidFinding } from '../../domain/deciding/corrected';
import { dateInWords } from '../dates';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import type { Told } from '../view';
import { RESULT_WORDS, SIDE_WORDS, titleOf } from '../words';
import { Correct } from './Correct';
import { detailOf, saidWords } from './saidWords';
import type { VisitRecord } from './state';

type Found = Told<'end'>['findings'][number];

interface FindingsProps {
  book: CueBook;
  findings: Found[];
  /** Where they may be corrected, and by whom; null in a rehearsal and until the log is read. */
  from: { seat: Seat; record: VisitRecord } | null;
  /** The session ended on a warning sign. */
  isFlagged: boolean;
}

/** Every finding that counts, in the order it was said, with what was corrected. */
export function Findings({ book, findings, from, isFlagged }: FindingsProps) {
  const count = from === null ? findings.length : from.record.said.length;
  return (
    <section className="card" aria-labelledby="findings-title">
      <h2 id="findings-title">Findings</h2>
      {count === 0 ? (
        <p>Nothing was answered.</p>
      ) : (
        <details>
          <summary>
            All {count}, in their order{from !== null && ', to look at and correct'}
          </summary>
          <ol className="findings">
            {from === null
              ? findings.map((finding, index) => (
                  <li key={index}>
                    <OneFinding book={book} found={finding} />
                  </li>
                ))
              : from.record.said.map((one) => (
                  <li key={`${one.finding.id} ${one.of}`}>
                    <OneFinding
                      book={book}
                      found={{ ...counting(one), prompt: one.finding.prompt }}
                    />
                    <History book={book} one={one} />
                    {!from.record.isCutOff && <Correct book={book} one={one} {...from} />}
                  </li>
                ))}
          </ol>
        </details>
      )}
      {isFlagged && from !== null && (
        <p>
          <Shape name="pain" /> The warning sign cannot be corrected. Write a note about it; a
          licensed professional decides.
        </p>
      )}
    </section>
  );
}

const OneFinding = ({
  book,
  found,
}: {
  book: CueBook;
  found: Parameters<typeof detailOf>[1] & { prompt: string };
}) => (
  <>
    <span className="what">
      {titleOf(book, found.prompt)}
      {found.side !== null && `, ${SIDE_WORDS[found.side].toLowerCase()}`}
    </span>
    <span className={`result result-${found.result}`}>
      <Shape name={found.result} /> {RESULT_WORDS[found.result]}
    </span>
    <span className="detail">{detailOf(book, found)}</span>
  </>
);

/** What was said before, struck, with what it was corrected to and when. */
function History({ book, one }: { book: CueBook; one: SaidFinding }) {
  const { first, corrections } = one;
  if (corrections.length === 0) return null;
  return (
    <ul className="history" aria-label="How it was corrected">
      {corrections.map((correction, at) => {
        const before = corrections[at - 1];
        return (
          <li key={correction.id}>
            <s>{saidWords(book, before === undefined ? first : saidIn(before))}</s> corrected to{' '}
            {saidWords(book, saidIn(correction))}, on {dateInWords(correction.correctedAt)}
          </li>
        );
      })}
      {!isOther(one) && <li>So it counts again as it was said.</li>}
    </ul>
  );
}
