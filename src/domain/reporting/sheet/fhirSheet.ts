/**
 * The sheet as HL7 FHIR R4 (4.0.1): a Bundle of Observations, which any system that speaks FHIR can
 * take in. Only structures of the published standard; what is observed is told in words (CodeableConcept.text),
 * since no published code says it, and none is made up. There is no Patient in it: the subject
 * is words alone.
 */
import type { ReadinessSheet, SheetFinding } from './readinessSheet';
import { uuidOf } from './uuid';

interface Concept {
  coding?: { system: string; code: string }[];
  text?: string;
}
interface Component {
  code: Concept;
  valueString?: string;
  valueInteger?: number;
  valueCodeableConcept?: Concept;
  valueQuantity?: { value: number; unit: string; system: string; code: string };
}

/** The part of an R4 Observation that is used here. */
export interface Observation {
  resourceType: 'Observation';
  id: string;
  /** `preliminary`: the session or the area was not finished; `corrected`: put right afterwards. */
  status: 'preliminary' | 'final' | 'corrected';
  category: Concept[];
  code: Concept;
  subject?: { type: 'Patient'; display: string };
  effectiveDateTime: string;
  valueCodeableConcept?: Concept;
  dataAbsentReason?: Concept;
  note?: { text: string }[];
  hasMember?: { reference: string }[];
  component?: Component[];
}

export interface Bundle {
  resourceType: 'Bundle';
  type: 'collection';
  timestamp: string;
  entry: { fullUrl: string; resource: Observation }[];
}

/** Of bodily activity that keeps somebody fit; `exam` is what a clinician observes. */
const CATEGORY = 'http://terminology.hl7.org/CodeSystem/observation-category';
const ABSENT = 'http://terminology.hl7.org/CodeSystem/data-absent-reason';
const UNITS = 'http://unitsofmeasure.org';

/** The session, its areas and each finding as Observations; the first has all others as members. */
export function fhirSheet(sheet: ReadinessSheet): Bundle {
  const { title } = sheet;
  const observed = (
    name: string,
    status: Observation['status'],
    text: string,
    rest: Partial<Observation>,
  ): Observation => ({
    resourceType: 'Observation',
    id: uuidOf(`${sheet.session} ${sheet.startedAt} ${name}`),
    status,
    category: [{ coding: [{ system: CATEGORY, code: 'activity' }] }],
    code: { text },
    ...(sheet.who !== null && { subject: { type: 'Patient', display: sheet.who } }),
    effectiveDateTime: sheet.startedAt,
    ...rest,
  });
  const findings = sheet.findings.map((finding) => ({
    area: finding.area?.is ?? null,
    resource: observed(
      `finding ${finding.id}`,
      finding.isCorrected ? 'corrected' : 'final',
      finding.side === null ? finding.what : `${finding.what}, ${finding.side.words}`,
      foundIn(sheet, finding),
    ),
  }));
  const flags = sheet.redFlags.map(({ words }, at) =>
    observed(`flag ${at}`, 'final', title('flags'), { valueCodeableConcept: { text: words } }),
  );
  const areas = sheet.areas.map(({ area, outcome, sentence, reasons }) =>
    observed(`area ${area.is}`, outcome.is === 'unfinished' ? 'preliminary' : 'final', area.words, {
      valueCodeableConcept: { text: outcome.words },
      note: notesOf([sentence, ...reasons]),
      ...membersOf(
        findings.filter((finding) => finding.area === area.is).map(({ resource }) => resource),
      ),
    }),
  );
  const loose = findings.filter(({ area }) => !sheet.areas.some((one) => one.area.is === area));
  const isWhole = sheet.ended.is !== 'open' && sheet.ended.is !== 'replies-ended';
  const session = observed(
    'session',
    !isWhole ? 'preliminary' : sheet.isCorrected ? 'corrected' : 'final',
    `${title('title')}: ${sheet.routine.words}`,
    {
      note: notesOf([...sheet.notices, ...toldOf(sheet)]),
      ...membersOf([...flags, ...areas, ...loose.map(({ resource }) => resource)]),
    },
  );
  return {
    resourceType: 'Bundle',
    type: 'collection',
    timestamp: sheet.startedAt,
    entry: [session, ...flags, ...areas, ...findings.map(({ resource }) => resource)].map(
      (resource) => ({ fullUrl: urlOf(resource), resource }),
    ),
  };
}

const urlOf = ({ id }: Observation): string => `urn:uuid:${id}`;
const notesOf = (texts: readonly string[]): { text: string }[] =>
  texts.filter((text) => text !== '').map((text) => ({ text }));
const membersOf = (members: readonly Observation[]): Pick<Observation, 'hasMember'> =>
  members.length === 0 ? {} : { hasMember: members.map((one) => ({ reference: urlOf(one) })) };

/** A result, or why there is none, and all that was said with it. */
function foundIn(
  { title }: ReadinessSheet,
  { result, side, faults, angle, load, pain, painKind }: SheetFinding,
): Partial<Observation> {
  const named = (name: string): Concept => ({ text: title(name) });
  const component: Component[] = [
    ...(side === null ? [] : [{ code: named('side'), valueString: side.words }]),
    ...faults.map(({ words }) => ({
      code: named('faults'),
      valueCodeableConcept: { text: words },
    })),
    ...(angle === null
      ? []
      : [
          {
            // The tool is part of what was measured: angles of two tools are never compared.
            code: { text: `${title('angle')} (${angle.tool.words})` },
            valueQuantity: {
              value: angle.degrees,
              unit: 'degrees',
              system: UNITS,
              code: 'deg',
            },
          },
        ]),
    ...(load === null ? [] : [{ code: named('load'), valueString: load.words }]),
    ...(pain === null
      ? []
      : [
          {
            code: { text: `${title('hurts')} (0-10)` },
            ...(pain === 'unanswered'
              ? { valueString: title('pain-unsaid') }
              : { valueInteger: pain }),
          },
        ]),
    ...(painKind === null
      ? []
      : [{ code: named('hurts'), valueCodeableConcept: { text: painKind.words } }]),
  ];
  return {
    ...(result.is === 'not-tested'
      ? {
          dataAbsentReason: {
            coding: [{ system: ABSENT, code: 'not-performed' }],
            text: result.words,
          },
        }
      : { valueCodeableConcept: { text: result.words } }),
    ...(component.length > 0 && { component }),
  };
}

/** What the sheet says beside its findings. */
const toldOf = (sheet: ReadinessSheet): string[] => {
  const { title } = sheet;
  const ready = sheet.liftsReady.map(({ words }) => words).join(', ') || title('none');
  return [
    `${title('way')}: ${sheet.way.words}`,
    `${title('end')}: ${sheet.ended.words}`,
    ...sheet.measured.map(({ check, told }) => `${check}: ${told.join(' ')}`),
    `${title('lifts-ready')}: ${ready}`,
    ...sheet.liftsMissing,
    ...sheet.homework.map(
      ({ area, name, dose, details }) =>
        `${title('homework')}, ${area.words}: ${name}, ${dose}. ${details.join(' ')}`,
    ),
    ...sheet.noHomework,
    `${title('next')}: ${sheet.next.date ?? title('no-date')}. ${sheet.next.because}`,
    ...sheet.cautions,
    ...sheet.notes.map((note) => `${title('notes')}: ${note}`),
  ];
};
