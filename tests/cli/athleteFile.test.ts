import { describe, expect, it } from 'vitest';
import { readAthleteFile } from '../../src/cli/athleteFile';
import { secondsOf } from '../../src/cli/durations';
import { Refused } from '../../src/cli/refused';
import { rehearse } from '../../src/cli/rehearsing';
import { readReplies } from '../../src/cli/replies';
import { bookOf } from '../../src/cli/verb';
import type { Athlete } from '../../src/domain/athlete';
import type { AngleTool } from '../../src/domain/findings';
import { DEFAULT_SETTINGS } from '../../src/domain/log';
import { openBench } from '../session/bench';
import { sayso, unwritten, written } from './running';

const book = bookOf();
const read = (given: unknown) =>
  readAthleteFile(written('athlete.json', JSON.stringify(given)), book);

describe('a file of --athlete', () => {
  it('is the usual settings and nothing known where there is none', () => {
    expect(readAthleteFile(undefined, book)).toEqual({ settings: DEFAULT_SETTINGS });
    expect(read({})).toEqual({ settings: DEFAULT_SETTINGS });
  });

  it('holds settings beside what is known of athlete, bell and blocks, as people write it', () => {
    expect(
      read({
        passLineDegrees: 150,
        stature: `5'9"`,
        knee: '48 cm',
        sole: '2 cm',
        bellHandle: '28 cm',
        blocks: ['10 cm', '10 cm', '2 in'],
        ageYears: 30,
        sex: 'female',
        angleTool: 'inclinometer',
      }),
    ).toEqual({
      settings: { ...DEFAULT_SETTINGS, passLineDegrees: 150 },
      athlete: {
        statureMillimetres: 1752.6,
        kneeMillimetres: 480,
        soleMillimetres: 20,
        bellHandleMillimetres: 280,
        blocksMillimetres: [100, 100, 50.8],
        ageYears: 30,
        sex: 'female',
      },
      angleTool: 'inclinometer',
    });
  });

  it('says how much is said', () => {
    expect(read({ words: 'tones' }).settings).toEqual({ ...DEFAULT_SETTINGS, words: 'tones' });
  });

  it('takes numbers: clear ones as they are, others under a name that says millimetres', () => {
    expect(read({ stature: 175, ageYears: 30 }).athlete?.statureMillimetres).toBe(1750);
    const millimetres = { kneeMillimetres: 480, blocksMillimetres: [100, 50] };
    expect(read(millimetres).athlete).toEqual(millimetres);
  });

  it.each<[string, unknown, RegExp]>([
    ['no object', [175], /must hold one object/],
    ['a name that is not known', { height: '175 cm' }, /"height" is not known. Known: .*stature/],
    [
      'an angle that nobody reaches',
      { passLineDegrees: 500 },
      /passLineDegrees must be a .*20 to 200/,
    ],
    ['words of no step', { words: 'few' }, /words is one of learning, normal, tones/],
    ['a pain above ten', { painRefersAbove: 12 }, /painRefersAbove must be a number, 0 to 10/],
    ['no sets at all', { ladderSets: 0 }, /ladderSets must be a number, 1 to 60/],
    ['pain that goes on above the line', { painGoesOnUpTo: 6 }, /painGoesOnUpTo \(6\) .* \(5\)/],
    ['a length that is none', { stature: 'tall', ageYears: 30 }, /stature: "tall" is no length/],
    ['a length without a clear unit', { knee: 27 }, /knee: "27" has no unit: is it 27 cm or 27 in/],
    ['a length that is no text', { knee: true }, /knee must be a length, such as 48 cm/],
    ['millimetres in words', { kneeMillimetres: '48 cm' }, /kneeMillimetres must be a number/],
    ['millimetres too few', { kneeMillimetres: 48 }, /A knee height is 250 to 700 mm/],
    ['one length twice', { knee: '48 cm', kneeMillimetres: 480 }, /knee or kneeMillimetres, not/],
    ['blocks that are no list', { knee: '48 cm', blocks: '10 cm' }, /blocks must be a list/],
    ['a block that is none', { knee: '48 cm', blocks: ['10 cm', 'a'] }, /blocks: "a" is no length/],
    ['too many blocks', { knee: '48 cm', blocks: Array(13).fill('2 cm') }, /at most 12 blocks/],
    ['a child by stature', { stature: '150 cm', ageYears: 15 }, /measure the knee.*under 17/],
    ['a stature without an age', { stature: '175 cm' }, /age in years, or measure the knee/],
    ['a stature beyond the estimate', { stature: '2.1 m', ageYears: 30 }, /140 to 200 cm/],
    ['an age that is none', { ageYears: '30' }, /ageYears must be a number, 5 to 110/],
    ['a sex not known', { sex: 'f' }, /sex is one of female, male/],
    ['a tool not known', { angleTool: 'app' }, /angleTool is one of eye, inclinometer/],
  ])('refuses %s', (_, given, message) => {
    expect(() => read(given)).toThrow(Refused);
    expect(() => read(given)).toThrow(message);
    expect(() => read(given)).toThrow(/athlete\.json: /);
  });

  it('a child whose knee was measured is welcome', () => {
    expect(read({ knee: '40 cm', stature: '150 cm', ageYears: 12 }).athlete?.kneeMillimetres).toBe(
      400,
    );
  });

  it('that is not there or no JSON is refused with its name', () => {
    expect(() => readAthleteFile(unwritten('none.json'), book)).toThrow(/none\.json: /);
    expect(() => readAthleteFile(written('broken.json', '{'), book)).toThrow(/broken\.json: /);
  });
});

const SHINS = 'shins not vertical\nclean set\nclean set';
const told = (
  routine: string,
  replies: string,
  known: { athlete?: Athlete; angleTool?: AngleTool } = {},
) =>
  rehearse({
    book,
    routine,
    way: 'hands-on',
    settings: DEFAULT_SETTINGS,
    secondsOf,
    replies: readReplies(written('replies.txt', replies)),
    ...known,
  });
const cuesOf = ({ timeline }: ReturnType<typeof told>) =>
  timeline.flatMap((event) => (event.type === 'cue' ? event.text : []));
const startedOf = ({ entries }: ReturnType<typeof told>) =>
  entries.find((entry) => entry.type === 'started');

describe('a session that knows its athlete', () => {
  const athlete: Athlete = { kneeMillimetres: 487, blocksMillimetres: [150, 100, 60] };
  const sentence = 'Set the bell on these blocks: fifteen and six centimetres.';

  it('says once what the bell stands on, and is the same session otherwise', () => {
    const cues = cuesOf(told('hinge', SHINS, { athlete }));
    expect(cues.filter((text) => text === sentence)).toHaveLength(1);
    expect(cues.filter((text) => text !== sentence)).toEqual(cuesOf(told('hinge', SHINS)));
  });

  it('keeps athlete and block height in its record; one that knows nothing has neither', () => {
    expect(startedOf(told('hinge', SHINS, { athlete }))).toMatchObject({
      athlete,
      blockHeightMillimetres: 210,
    });
    const low = { kneeMillimetres: 487, blocksMillimetres: [50] };
    expect(startedOf(told('hinge', SHINS, { athlete: low }))?.blockHeightMillimetres).toBeNull();
    const nothing = Object.keys(startedOf(told('hinge', SHINS)) ?? {});
    expect(nothing.some((field) => /athlete|block|tool/i.test(field))).toBe(false);
  });

  it('says the same after a reload: it is known from the record', () => {
    const { entries } = told('hinge', SHINS, { athlete });
    const found = entries.findIndex(({ type }) => type === 'finding');
    const bench = openBench({ log: entries.slice(0, found + 1) });
    bench.untilAsked('set/bell-hinge');
    expect(bench.cues()).toContain(sentence);
  });
});

describe('the tool of a spoken angle', () => {
  const REPLIES = 'left one sixty five clear\nright one sixty five clear';
  const toolsOf = (known: { angleTool?: AngleTool }) =>
    told('overhead', REPLIES, known).timeline.flatMap((event) =>
      event.type === 'finding' ? [[event.angleDegrees, event.tool]] : [],
    );

  it('is the eye, unless another is named', () => {
    expect(toolsOf({})).toEqual([
      [165, 'eye'],
      [165, 'eye'],
    ]);
    expect(toolsOf({ angleTool: 'inclinometer' })).toEqual([
      [165, 'inclinometer'],
      [165, 'inclinometer'],
    ]);
  });
});

describe('sayso rehearse --athlete', () => {
  it('says the blocks, and the session file keeps them', async () => {
    const athlete = written(
      'known.json',
      '{"stature":"175 cm","ageYears":30,"angleTool":"inclinometer"}',
    );
    const session = unwritten('known-session.json');
    const { status, answers } = await sayso(
      ...['rehearse', 'hinge', '--replies', written('shins.txt', SHINS)],
      ...['--athlete', athlete, '--session', session],
    );
    expect(status).toBe(0);
    expect(answers.map(({ text }) => text)).toContain(
      'Set the bell on about twenty one centimetres of blocks.',
    );
    const { default: kept } = (await import(session, { with: { type: 'json' } })) as {
      default: object;
    };
    expect(kept).toMatchObject({
      athlete: { statureMillimetres: 1750, ageYears: 30 },
      angleTool: 'inclinometer',
      blockHeightMillimetres: 207,
    });
  });

  it('refuses a child by stature and says what to do, exit 1', async () => {
    const athlete = written('child.json', '{"stature":"150 cm","ageYears":15}');
    const { status, errors } = await sayso(
      ...['rehearse', 'hinge', '--replies', written('shins.txt', SHINS), '--athlete', athlete],
    );
    expect(status).toBe(1);
    expect(errors).toMatch(/child\.json: .*measure the knee/);
  });
});
