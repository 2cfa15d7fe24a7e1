import { useRef, type ReactNode } from 'react';
import type { CueBook } from '../../../domain/script';
import { OneOf } from '../../forms/OneOf';
import { TextField } from '../../forms/TextField';
import { Wrong } from '../../forms/Wrong';
import { AddBlock, titleOf } from './AddBlock';
import { BlockFields } from './BlockFields';
import { copyOf, type BlockDraft, type PartDraft } from './draft';
import { MovableList } from './MovableList';

const ARRANGEMENTS = ['together', 'stations'] as const;

interface PartFieldsProps {
  book: CueBook;
  part: PartDraft;
  at: number;
  moves: ReactNode;
  /** What is wrong, by its path in the part, such as `blocks.0.demo`. */
  wrongOf: (path: string) => string | null;
  onChange: (change: Partial<PartDraft>) => void;
  /** Null where it is the only one. */
  onRemove: (() => void) | null;
}

/** One part: everybody together, or each station its own; its blocks in their order. */
export function PartFields(props: PartFieldsProps) {
  const { book, part, at, moves, wrongOf, onChange, onRemove } = props;
  const { arrangement, blocks } = part;
  const heading = useRef<HTMLHeadingElement>(null);
  const isStations = arrangement === 'stations';
  const list = isStations ? 'stations' : 'blocks';
  const hasBreaths = blocks.some(({ drill }) => drill === null);
  const change = (key: string, what: Partial<BlockDraft>) =>
    onChange({ blocks: blocks.map((each) => (each.key === key ? { ...each, ...what } : each)) });
  const copy = (block: BlockDraft) =>
    onChange({
      blocks: blocks.flatMap((each) => (each.key === block.key ? [each, copyOf(each)] : [each])),
    });
  const takeOut = (block: BlockDraft) => {
    onChange({ blocks: blocks.filter(({ key }) => key !== block.key) });
    // The button that had the keyboard is gone.
    heading.current?.focus();
  };
  const number = (label: string, field: 'rounds' | 'work' | 'change', of: string) => (
    <TextField
      label={label}
      inputMode="numeric"
      value={part[field]}
      onChange={(value) => onChange({ [field]: value })}
      wrong={wrongOf(of)}
    />
  );
  return (
    <section className="card part" aria-label={`Part ${at + 1}`}>
      <div className="block-head">
        <h2 ref={heading} tabIndex={-1}>
          Part {at + 1}
        </h2>
        {moves}
      </div>
      <OneOf
        options={hasBreaths ? ['together'] : ARRANGEMENTS}
        chosen={arrangement}
        onChange={(value) => onChange({ arrangement: value })}
        words={(value) => (value === 'together' ? 'Everybody together' : 'At stations')}
      />
      {hasBreaths && (
        <p className="hint">
          Long breaths are for everybody together. Put stations into a part of their own.
        </p>
      )}
      <div className="numbers">
        {number('Rounds', 'rounds', 'rounds')}
        {isStations && number('Work (seconds)', 'work', 'workSeconds')}
        {isStations && number('Change (seconds)', 'change', 'changeSeconds')}
      </div>
      {isStations && (
        <p className="hint">
          Everybody moves on by one station after each turn. A round takes everybody past each.
        </p>
      )}
      <MovableList
        label={isStations ? 'Stations' : 'Blocks'}
        className="blocks"
        items={blocks}
        onChange={(changed) => onChange({ blocks: changed })}
        nameOf={(block) => titleOf(book, block)}
      >
        {(block, index, blockMoves) => (
          <BlockFields
            {...{ book, arrangement, block, at: index, moves: blockMoves }}
            wrongOf={(field) => wrongOf(`${list}.${index}.${field}`)}
            onChange={(what) => change(block.key, what)}
            onCopy={() => copy(block)}
            onRemove={() => takeOut(block)}
          />
        )}
      </MovableList>
      <Wrong id={`part-${part.key}-wrong`} words={wrongOf(list)} />
      <AddBlock
        {...{ book, arrangement }}
        onAdd={(block) => onChange({ blocks: [...blocks, block] })}
      />
      {onRemove !== null && (
        <button type="button" onClick={onRemove} aria-label={`Take out part ${at + 1}`}>
          Take out this part
        </button>
      )}
    </section>
  );
}
