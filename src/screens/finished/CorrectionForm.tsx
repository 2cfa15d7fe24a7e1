import { useEffect, useRef, useState, type FormEvent } from 'react';
import { counting, isSame, type Said, type SaidFinding } from '../../domain/deciding/corrected';
import {
  fieldsOf,
  readCorrection,
  takesPainAway,
  type CorrectionField,
  type CorrectionProblem,
} from '../../domain/deciding/correction';
import { RESULTS } from '../../domain/findings';
import type { CueBook } from '../../domain/script';
import { focusWrong } from '../forms/focusWrong';
import { FormEnd } from '../forms/FormEnd';
import { TextField } from '../forms/TextField';
import { Shape } from '../Shape';
import { LOAD_WORDS, RESULT_WORDS, SIDE_WORDS } from '../words';
import { AskOnce } from '../forms/AskOnce';
import { faultChoices, KINDS, loadChoices, PAINS } from './correctionChoices';
import { saidWords } from './saidWords';
import { Select } from '../forms/Select';
import { Several } from '../forms/Several';
import type { VisitRecord } from './state';

interface CorrectionFormProps {
  book: CueBook;
  record: VisitRecord;
  one: SaidFinding;
  /** What it is of, as a title. */
  name: string;
  /** Null once it is kept, else what to do. */
  keep: (said: Said) => Promise<string | null>;
  onClose: () => void;
}

/** The answers of the run screen, to put one finding right. */
export function CorrectionForm(props: CorrectionFormProps) {
  const { book, record, one, name, keep, onClose } = props;
  const before = counting(one);
  const [fields, setFields] = useState(() => fieldsOf(before));
  const [problems, setProblems] = useState<CorrectionProblem[]>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [asks, setAsks] = useState<{ about: 'pain'; said: Said } | { about: 'leaving' } | null>(
    null,
  );
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusWrong(form.current), [problems]);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const change = (some: Partial<typeof fields>) => setFields({ ...fields, ...some });
  const wrongAt = (field: CorrectionField) =>
    problems.find((each) => each.field === field)?.say ?? null;
  const isChanged = JSON.stringify(fields) !== JSON.stringify(fieldsOf(before));

  const save = async (said: Said) => {
    setAsks(null);
    setTrouble(await keep(said));
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTrouble(null);
    const read = readCorrection(book, record.settings, one, fields, record.angleTool);
    setProblems(read.problems);
    if (read.said === null) return;
    if (isSame(before, read.said)) return setTrouble('Nothing is changed yet.');
    if (takesPainAway(record.settings, before, read.said)) {
      return setAsks({ about: 'pain', said: read.said });
    }
    void save(read.said);
  };
  const toggle = (fault: string) =>
    change({
      faults: fields.faults.includes(fault)
        ? fields.faults.filter((other) => other !== fault)
        : [...fields.faults, fault],
    });
  const isSided = one.of === null && one.finding.side !== null;
  const { load } = fields;

  return (
    <form
      ref={form}
      className="correction"
      aria-label={`Correct ${name}`}
      noValidate
      onSubmit={submit}
    >
      {isSided && (
        <Several
          title="Side"
          which="one"
          options={['left', 'right'] as const}
          chosen={fields.side === null || fields.side === 'both' ? [] : [fields.side]}
          onChange={(side) => change({ side })}
          words={(side) => (
            <>
              <Shape name={side} /> {SIDE_WORDS[side]}
            </>
          )}
          wrong={null}
        />
      )}
      <Several
        title="Result"
        which="one"
        options={RESULTS}
        chosen={[fields.result]}
        onChange={(result) => change({ result })}
        words={(result) => (
          <span className={`result-${result}`}>
            <Shape name={result} /> {RESULT_WORDS[result]}
          </span>
        )}
        wrong={wrongAt('result')}
      />
      <Several
        title="Faults"
        which="any"
        options={faultChoices(book, one)}
        chosen={fields.faults}
        onChange={toggle}
        words={(fault) => book.faults[fault]?.readback ?? fault}
        wrong={wrongAt('faults')}
      />
      <div className="fields">
        {load !== null && (
          <Select
            label="Done"
            value={load}
            onChange={(chosen) => change({ load: chosen })}
            options={loadChoices(book, one).map((each) => [each, LOAD_WORDS[each]] as const)}
            wrong={null}
          />
        )}
        <TextField
          label="Angle, degrees"
          inputMode="numeric"
          value={fields.angle}
          wrong={wrongAt('angle')}
          onChange={(angle) => change({ angle })}
        />
        <Select
          label="Pain, 0 to 10"
          value={fields.pain}
          onChange={(pain) => change({ pain })}
          options={PAINS}
          wrong={wrongAt('pain')}
        />
        <Select
          label="Kind of pain"
          value={fields.kind}
          onChange={(kind) => change({ kind })}
          options={KINDS}
          wrong={wrongAt('kind')}
        />
      </div>
      <p className="hint">What was said stays in the record, struck, with the date of this.</p>
      {asks === null && (
        <FormEnd
          keep="Save the correction"
          onClose={() => (isChanged ? setAsks({ about: 'leaving' }) : onClose())}
          trouble={trouble}
        />
      )}
      {asks?.about === 'leaving' && (
        <AskOnce
          question="What you changed here is not saved yet."
          yes="Throw it away"
          no="Go on correcting"
          onYes={onClose}
          onNo={() => setAsks(null)}
        />
      )}
      {asks?.about === 'pain' && (
        <AskOnce
          question={`This takes pain away: it was ${saidWords(book, before)}, and would be ${saidWords(book, asks.said)}. Only if it was heard wrongly; about pain that was there a licensed professional decides.`}
          yes="It was heard wrongly"
          no="Keep the pain"
          onYes={() => void save(asks.said)}
          onNo={() => setAsks(null)}
        />
      )}
    </form>
  );
}
