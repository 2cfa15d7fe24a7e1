import type { CueBook } from '../../domain/script';
import { Shape } from '../Shape';
import type { Told } from '../view';
import { faultsOf, PAIN_KIND_WORDS, RESULT_WORDS, SIDE_WORDS, titleOf } from '../words';

type Found = Told<'end'>['findings'][number];

/** Every finding that counts, in the order it was said. */
export const Findings = ({ book, findings }: { book: CueBook; findings: Found[] }) => (
  <section className="card" aria-labelledby="findings-title">
    <h2 id="findings-title">Findings</h2>
    {findings.length === 0 ? (
      <p>Nothing was answered.</p>
    ) : (
      <details>
        <summary>All {findings.length}, in their order</summary>
        <ol className="findings">
          {findings.map((finding, index) => (
            <li key={index}>
              <span className="what">
                {titleOf(book, finding.prompt)}
                {finding.side !== null && `, ${SIDE_WORDS[finding.side].toLowerCase()}`}
              </span>
              <span className={`result result-${finding.result}`}>
                <Shape name={finding.result} /> {RESULT_WORDS[finding.result]}
              </span>
              <span className="detail">{detailOf(book, finding)}</span>
            </li>
          ))}
        </ol>
      </details>
    )}
  </section>
);

function detailOf(book: CueBook, finding: Found): string {
  const parts = [
    faultsOf(book, finding),
    finding.angleDegrees === null ? '' : `${finding.angleDegrees}° by ${toolOf(finding)}`,
    painOf(finding),
  ];
  return parts.filter((part) => part !== '').join('; ');
}

const toolOf = ({ tool }: Found): string => (tool ?? 'eye').replace('-', ' ');

/** "pain 4 of 10, known"; a number that was asked for and not given is said to be missing. */
function painOf({ result, pain, painKind }: Found): string {
  const kind =
    painKind === null || painKind === 'unanswered'
      ? ''
      : `, ${PAIN_KIND_WORDS[painKind].toLowerCase()}`;
  if (pain !== null) return `pain ${pain} of 10${kind}`;
  return result === 'pain' ? `no number given${kind}` : '';
}
