import type { ReactNode } from 'react';
import type { CueBook } from '../../../domain/script';
import { demoOf } from '../../../domain/warmUp/own';
import { TextField } from '../../forms/TextField';
import { titleOf } from './AddBlock';
import type { BlockDraft, PartDraft } from './draft';

interface BlockFieldsProps {
  book: CueBook;
  arrangement: PartDraft['arrangement'];
  block: BlockDraft;
  at: number;
  moves: ReactNode;
  /** What is wrong with a field of it, by its name in the scripts. */
  wrongOf: (field: string) => string | null;
  onChange: (change: Partial<BlockDraft>) => void;
  onCopy: () => void;
  onRemove: () => void;
}

/** One block, or one station: its times, and what the leader shows. */
export function BlockFields(props: BlockFieldsProps) {
  const { book, arrangement, block, at, moves, wrongOf, onChange, onCopy, onRemove } = props;
  const isStations = arrangement === 'stations';
  const isBreaths = block.drill === null;
  const drill = block.drill === null ? undefined : book.drills[block.drill];
  const title = titleOf(book, block);
  const number = (label: string, field: 'work' | 'change' | 'breaths' | 'exhale', of: string) => (
    <TextField
      label={label}
      inputMode="numeric"
      value={block[field]}
      onChange={(value) => onChange({ [field]: value })}
      wrong={wrongOf(of)}
    />
  );
  return (
    <div role="group" aria-label={title} className="block">
      <div className="block-head">
        <h3>
          {isStations ? `Station ${at + 1}:` : `${at + 1}.`}{' '}
          <span lang={book.language}>{title}</span>
        </h3>
        {moves}
      </div>
      {isBreaths && (
        <TextField
          label="What it is called"
          value={block.name}
          onChange={(name) => onChange({ name })}
          wrong={wrongOf('name')}
        />
      )}
      {!isStations && (
        <div className="numbers">
          {isBreaths ? (
            <>
              {number('Breaths', 'breaths', 'breaths')}
              {number('Each out (seconds)', 'exhale', 'exhaleSeconds')}
            </>
          ) : (
            number('Work (seconds)', 'work', 'workSeconds')
          )}
          {number('Change before it (seconds)', 'change', 'changeSeconds')}
        </div>
      )}
      <TextField
        label="Said as it is shown"
        value={block.demo}
        hasLines
        // One spoken line, however it is typed or pasted.
        onChange={(demo) => onChange({ demo: demo.replace(/\s*[\r\n]+\s*/g, ' ') })}
        wrong={wrongOf('demo') ?? wrongOf('drill')}
        {...(drill !== undefined && { hint: `Empty: “${demoOf(drill)}”` })}
      />
      <div className="pair">
        <button type="button" onClick={onCopy} aria-label={`Once more: ${title}`}>
          Once more
        </button>
        <button type="button" onClick={onRemove} aria-label={`Take out: ${title}`}>
          Take out
        </button>
      </div>
    </div>
  );
}
