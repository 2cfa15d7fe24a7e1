import { useEffect, useRef, useState, type FormEvent } from 'react';
import { SEXES, type Sex } from '../../domain/athlete';
import { ANGLE_TOOLS } from '../../domain/findings';
import { mayBeMinor } from '../../domain/people/age';
import { squadsOf } from '../../domain/people/found';
import type { Person } from '../../domain/people/person';
import { personFrom, type FieldProblem, type PersonField } from '../../domain/people/personFrom';
import { dateInWords } from '../dates';
import { consentWords } from '../gate/OfThisOne';
import { focusWrong } from '../forms/focusWrong';
import { FormEnd } from '../forms/FormEnd';
import { Select } from '../forms/Select';
import { TextField } from '../forms/TextField';
import { InitialsOnly, useInitials } from '../people/InitialsOnly';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { TOOL_WORDS } from '../words';

interface KnownProps {
  seat: Seat;
  person: Person;
  today: string;
}

const NOT_NOTED = ['', 'Not noted'] as const;
const SEX_WORDS: Record<Sex, string> = { female: 'Female', male: 'Male' };

/** Who they are and what was measured, to read and to change in place. */
export function Known({ seat, person, today }: KnownProps) {
  const [isEdited, setEdited] = useState(false);
  const change = useRef<HTMLButtonElement>(null);
  const wasEdited = useRef(false);
  useEffect(() => {
    if (wasEdited.current && !isEdited) change.current?.focus();
    wasEdited.current = isEdited;
  }, [isEdited]);
  return (
    <section className="card known" aria-labelledby="known-title">
      <h2 id="known-title">What is known</h2>
      {isEdited ? (
        <Edit seat={seat} person={person} today={today} onClose={() => setEdited(false)} />
      ) : (
        <>
          <Facts person={person} today={today} />
          <button ref={change} type="button" onClick={() => setEdited(true)}>
            Change
          </button>
        </>
      )}
    </section>
  );
}

/** As text to be edited. */
const fieldsOf = (person: Person): Record<PersonField, string> => ({
  name: person.name,
  squad: person.squad ?? '',
  birthYear: person.birthYear === null ? '' : String(person.birthYear),
  sex: person.sex ?? '',
  stature: length(person.statureMillimetres) ?? '',
  knee: length(person.kneeMillimetres) ?? '',
  angleTool: person.angleTool ?? '',
  mindText: person.mindText,
  guardianAgreedOn: person.guardianAgreedOn ?? '',
});

const length = (millimetres: number | null) =>
  millimetres === null ? null : `${millimetres / 10} cm`;

function Facts({ person, today }: { person: Person; today: string }) {
  const { birthYear, sex, statureMillimetres, kneeMillimetres, angleTool, mindText } = person;
  const facts: [string, string | null][] = [
    ['Squad', person.squad],
    ['Birth year', birthYear === null ? null : String(birthYear)],
    ['Sex', sex === null ? null : SEX_WORDS[sex]],
    ['Stature', length(statureMillimetres)],
    ['Knee, measured', length(kneeMillimetres)],
    ['Angles are read', angleTool === null ? null : TOOL_WORDS[angleTool].toLowerCase()],
    ['Keep in mind', mindText === '' ? null : mindText],
  ];
  const isMinor = mayBeMinor(person, today);
  return (
    <>
      {isMinor && (
        <p className="consent">
          <Shape name="notice" /> {consentWords(person.guardianAgreedOn)}
        </p>
      )}
      <dl className="facts">
        {facts.map(([what, is]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{is ?? 'not noted'}</dd>
          </div>
        ))}
        {!isMinor && person.guardianAgreedOn !== null && (
          <div>
            <dt>A guardian agreed</dt>
            <dd>{dateInWords(person.guardianAgreedOn)}</dd>
          </div>
        )}
      </dl>
    </>
  );
}

function Edit({ seat, person, today, onClose }: KnownProps & { onClose: () => void }) {
  const [fields, setFields] = useState(() => fieldsOf(person));
  const [problems, setProblems] = useState<FieldProblem[]>([]);
  const [trouble, setTrouble] = useState<string | null>(null);
  const everybody = useSeat(seat, (state) => state.people.all).map((one) => one.person);
  const initials = useInitials(fields, person.name, today);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => focusWrong(form.current), [problems]);
  const at = (field: PersonField) => ({
    value: fields[field],
    wrong: problems.find((one) => one.field === field)?.say,
    onChange: (value: string) => setFields({ ...fields, [field]: value }),
  });
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const { id, isInvented } = person;
    const read = personFrom({ ...fields, name: initials.name }, { id, today, isInvented });
    setProblems(read.problems);
    if (read.person === null) return;
    const problem = await seat.people.save([read.person]);
    setTrouble(problem);
    if (problem === null) onClose();
  };
  return (
    <form
      ref={form}
      className="edit"
      aria-label={`Change what is known of ${person.name}`}
      noValidate
      onSubmit={(event) => void save(event)}
    >
      <TextField isFirst label="Name" {...at('name')} />
      <TextField label="Squad" known={squadsOf(everybody)} {...at('squad')} />
      <TextField label="Birth year" inputMode="numeric" {...at('birthYear')} />
      <Select
        label="Sex"
        hint="For the norms of some angles; nothing else uses it."
        options={[NOT_NOTED, ...SEXES.map((sex) => [sex, SEX_WORDS[sex]] as const)]}
        {...at('sex')}
      />
      <TextField label="Stature" hint="Such as 175 cm or 5'9&quot;." {...at('stature')} />
      <TextField
        label="Knee, measured"
        hint="From the floor to the middle of the kneecap, barefoot, such as 48 cm."
        {...at('knee')}
      />
      <Select
        label="Angles are read"
        options={[NOT_NOTED, ...ANGLE_TOOLS.map((tool) => [tool, TOOL_WORDS[tool]] as const)]}
        {...at('angleTool')}
      />
      <TextField
        hasLines
        label="Keep in mind"
        hint="Shown above the cautions before each session."
        {...at('mindText')}
      />
      <TextField
        label="A guardian agreed on"
        type="date"
        hint="For anybody under 18."
        {...at('guardianAgreedOn')}
      />
      <InitialsOnly {...initials} />
      <FormEnd keep="Save" onClose={onClose} trouble={trouble} />
    </form>
  );
}
