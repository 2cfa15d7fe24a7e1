/**
 * FHIR R4 (4.0.1), http://hl7.org/fhir/R4/: what its pages on JSON, data types, Bundle and
 * Observation demand of what is used here. A validator of HL7's own is not at hand, so these are the
 * constraints by name.
 */
import { describe, expect, it } from 'vitest';
import { fhirSheet, type Observation } from '../../../../src/domain/reporting/sheet/fhirSheet';
import {
  readinessSheet,
  type SheetAsked,
} from '../../../../src/domain/reporting/sheet/readinessSheet';
import { uuidOf } from '../../../../src/domain/reporting/sheet/uuid';
import { bookFor, NAMES, sessionOf, type SessionName } from '../../../timelines/sessions';

const fhirOf = (name: SessionName, asked: SheetAsked = { name: 'Quib Marn' }) =>
  fhirSheet(readinessSheet(bookFor(name), sessionOf(name).entries, asked));
const observations = (name: SessionName): Observation[] =>
  fhirOf(name).entry.map(({ resource }) => resource);

/** Every value in it, with the name it stands under. */
function* valuesIn(value: unknown, name = ''): Generator<[string, unknown]> {
  yield [name, value];
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) {
    yield* valuesIn(inner, Array.isArray(value) ? name : key);
  }
}

/** The elements of an Observation and of its component that R4 knows, as far as they are used. */
const OBSERVATION = [
  ...['resourceType', 'id', 'status', 'category', 'code', 'subject', 'effectiveDateTime'],
  ...['valueCodeableConcept', 'dataAbsentReason', 'note', 'hasMember', 'component'],
];
const VALUES = ['valueString', 'valueInteger', 'valueCodeableConcept', 'valueQuantity'];
/** Value set observation-status, required binding. */
const STATUS = [
  ...['registered', 'preliminary', 'final', 'amended', 'corrected', 'cancelled'],
  ...['entered-in-error', 'unknown'],
];
/** The data types dateTime and instant, and a UUID as a URI. */
const INSTANT =
  /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:([0-5]\d|60)(\.\d+)?(Z|[+-](0\d|1[0-3]):[0-5]\d|[+-]14:00)$/;
const UUID = /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

describe('the sheet as FHIR R4', () => {
  it.each(NAMES)('is a collection of Observations as the standard has them: %s', (name) => {
    const bundle = JSON.parse(JSON.stringify(fhirOf(name))) as ReturnType<typeof fhirOf>;
    expect(bundle).toMatchObject({ resourceType: 'Bundle', type: 'collection' });
    expect(bundle.timestamp).toMatch(INSTANT);
    const urls = bundle.entry.map(({ fullUrl }) => fullUrl);
    // bdl-7: fullUrl is unique in a bundle; a URN is that of the resource's id.
    expect(new Set(urls).size).toBe(urls.length);
    for (const { fullUrl, resource } of bundle.entry) {
      expect(fullUrl).toMatch(UUID);
      expect(fullUrl).toBe(`urn:uuid:${resource.id}`);
      expect(resource.id).toMatch(/^[A-Za-z0-9\-.]{1,64}$/);
      expect(resource.resourceType).toBe('Observation');
      expect(OBSERVATION).toEqual(expect.arrayContaining(Object.keys(resource)));
      expect(STATUS).toContain(resource.status);
      expect(resource.effectiveDateTime).toMatch(INSTANT);
      expect(resource.code.text).toMatch(/\S/);
      const hasValue = resource.valueCodeableConcept !== undefined;
      // obs-6: a reason why there is no value only where there is none.
      if (resource.dataAbsentReason !== undefined) expect(hasValue).toBe(false);
      for (const { code, ...value } of resource.component ?? []) {
        expect(code.text).toMatch(/\S/);
        expect(Object.keys(value)).toHaveLength(1);
        expect(VALUES).toEqual(expect.arrayContaining(Object.keys(value)));
        // obs-7: the code of a component with a value differs from that of its Observation.
        expect(code).not.toEqual(resource.code);
      }
      for (const { reference } of resource.hasMember ?? []) expect(urls).toContain(reference);
    }
  });

  it.each(NAMES)('has nothing empty (ele-1) and no code that is not certain: %s', (name) => {
    for (const [key, value] of valuesIn(fhirOf(name))) {
      expect(value, key).not.toBeNull();
      if (typeof value === 'string') expect(value.trim(), key).not.toBe('');
      if (Array.isArray(value)) expect(value.length, key).toBeGreaterThan(0);
      if (key === 'coding' && !Array.isArray(value)) {
        expect([
          {
            system: 'http://terminology.hl7.org/CodeSystem/observation-category',
            code: 'activity',
          },
          {
            system: 'http://terminology.hl7.org/CodeSystem/data-absent-reason',
            code: 'not-performed',
          },
        ]).toContainEqual(value);
      }
      if (key === 'valueQuantity') {
        expect(value).toMatchObject({ system: 'http://unitsofmeasure.org', code: 'deg' });
      }
    }
    expect(JSON.stringify(fhirOf(name))).not.toMatch(/snomed|loinc/i);
  });

  it('has every area and finding as a member, each once, under the session', () => {
    const all = observations('three-areas');
    const members = all.flatMap(({ hasMember }) => hasMember ?? []).map((one) => one.reference);
    expect([...members].sort()).toEqual(
      all
        .slice(1)
        .map(({ id }) => `urn:uuid:${id}`)
        .sort(),
    );
    expect(all[0]).toMatchObject({ status: 'final', code: { text: 'Readiness sheet: Readiness' } });
    const notes = all[0]!.note!.map(({ text }) => text).join(' ');
    expect(notes).toMatch(/not a diagnosis.*licensed practice/);
    expect(notes).toContain('The goblet squat, 3 sets of 6');
    expect(all.map(({ code, valueCodeableConcept: value }) => [code.text, value?.text])).toEqual(
      expect.arrayContaining([
        ['Squat', 'Working'],
        ['The lifted arm, left', 'held'],
        ['The unloaded hinge', 'position given up'],
      ]),
    );
  });

  it('has angle in UCUM degrees with its tool, faults, load and pain as components', () => {
    const found = (name: SessionName, text: string) =>
      observations(name).find(({ code }) => code.text === text)?.component;
    expect(found('three-areas', 'The lifted arm, left')).toContainEqual({
      code: { text: 'Angle (eye)' },
      valueQuantity: {
        ...{ value: 160, unit: 'degrees' },
        ...{ system: 'http://unitsofmeasure.org', code: 'deg' },
      },
    });
    expect(found('three-areas', 'The unloaded hinge')).toContainEqual({
      code: { text: 'Faults' },
      valueCodeableConcept: { text: 'knees forward' },
    });
    const pains = observations('pain-7').flatMap(({ component }) => component ?? []);
    expect(pains).toContainEqual({ code: { text: 'Pain (0-10)' }, valueInteger: 7 });
  });

  it('is preliminary where the session broke off, and an area where it is unfinished', () => {
    const [session, ...rest] = observations('silence');
    expect(session?.status).toBe('preliminary');
    expect(rest.filter(({ status }) => status === 'preliminary').length).toBeGreaterThan(0);
  });

  it('names nobody by more than was asked, and has no subject where nobody is named', () => {
    expect(JSON.stringify(fhirOf('stopped'))).not.toContain('Quib');
    expect(fhirOf('stopped').entry[0]?.resource.subject).toEqual({
      type: 'Patient',
      display: 'Q. M.',
    });
    expect(fhirOf('stopped', {}).entry[0]?.resource).not.toHaveProperty('subject');
  });

  it('has no control character in a hostile note', () => {
    const notes = ['a\u0000b\u001b[31m\u202Ec <b>'];
    const noted = JSON.stringify(fhirOf('stopped', { notes }));
    expect(noted).toContain('a b [31mc <b>');
  });
});

it('names made of texts are UUIDs, the same each time, all different', () => {
  const all = Array.from({ length: 5000 }, (_, at) => uuidOf(`finding ${at}`));
  expect(new Set(all).size).toBe(5000);
  expect(all[0]).toBe(uuidOf('finding 0'));
  for (const uuid of all) {
    expect(uuid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  }
});
