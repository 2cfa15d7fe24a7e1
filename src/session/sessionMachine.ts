import { and, assign, not, setup } from 'xstate';
import { say } from '../domain/saying';
import * as ahead from './ahead';
import * as deciding from './deciding';
import * as attempting from './attempting';
import * as recording from './recording';
import * as showing from './showing';
import * as telling from './telling';
import * as passing from './passing';
import { heardOf, type SessionMachineEvent } from './events';
import { checkMachine, setMachine } from './attemptMachine';
import { hearing } from './hearing';
import { isHeld, meaningOf, type Meaning } from './meaning';
import { questionMachine } from './questionMachine';
import { openContext, type SessionContext, type SessionInput } from './sessionContext';
import { speaking } from './speaking';
import { storing } from './storing';

const session = setup({
  types: {} as { context: SessionContext; events: SessionMachineEvent; input: SessionInput },
  actors: {
    hearing,
    speaking,
    storing,
    check: checkMachine,
    set: setMachine,
    question: questionMachine,
  },
  actions: {
    decide: assign(({ context }) => deciding.decide(context)),
    keepNotes: ({ context }) => showing.keepNotes(context),
    clearNotes: assign({ unkept: [] }),
    markTold: assign(({ context }) => telling.markTold(context)),
    showStep: ({ context }) => showing.showStep(context),
    acknowledge: ({ context, event }) => showing.acknowledge(context, event),
    clearStored: assign({ unstored: [] }),
    showHeard: ({ context, event }) => showing.showHeard(context, event),
    showNotTaken: ({ context, event }) => showing.showNotTaken(context, event),
    noteHeard: assign(({ context, event }) => recording.noteHeard(context, event)),
    keepEarly: assign(({ context, event }) => recording.keepEarly(context, event)),
    recordFlag: assign(({ context, event }) => recording.recordFlag(context, event)),
    recordPain: assign(({ context, event }) => recording.recordPain(context, event)),
    recordHalt: assign(({ context, event }) => recording.recordHalt(context, event)),
    recordPause: assign(({ context, event }) => recording.recordPause(context, event)),
    recordResume: assign(({ context, event }) => recording.recordResume(context, event)),
    recordUndo: assign(({ context, event }) => recording.recordUndo(context, event)),
    recordOverrule: assign(({ context, event }) => recording.recordOverrule(context, event)),
    showFindings: ({ context }) => showing.showFindings(context),
    signalHalt: ({ context }) => {
      context.stage.hush();
      context.stage.tone('halted');
    },
    hush: ({ context }) => context.stage.hush(),
    askAnew: assign(({ context }) => attempting.askAnew(context)),
    followReport: assign(({ context, event }) => attempting.followReport(context, event)),
    pass: ({ context, event, self }) => passing.pass(context, event, self.getSnapshot().children),
    passMeaning: (
      { context, event, self },
      type: 'READY' | 'REP' | 'FINISHED' | 'REPEAT' | 'KEPT',
    ) => passing.passMeaning(type, context, event, self.getSnapshot().children),
    setWords: assign(({ context, event }) => passing.setWords(context, event)),
    adjustVoice: ({ context, event }) => passing.adjustVoice(context, event),
    setAside: assign(({ context, event }, meaning: Meaning) =>
      passing.setAside(context, event, meaning),
    ),
    setDeafAside: assign(({ context }) => ({ texts: [say(context.book.lines, 'say.deaf', {})] })),
    showDeaf: ({ context, event }) => showing.showDeaf(context, event),
    attendIdle: ({ context }) => context.stage.attend('idle'),
    showPaused: ({ context }) =>
      context.stage.show({ type: 'phase', phase: 'paused', seconds: null }),
    conclude: assign(({ context, event }) => deciding.conclude(context, event)),
    showEnd: ({ context }) => showing.showEnd(context),
  },
  guards: {
    means: ({ context, event }, meaning: Meaning) =>
      event.type === 'HEARD' &&
      meaningOf(heardOf(context, event).reading, event.prompt, context) === meaning,
    ends: ({ context }) => context.decision?.step.do === 'end',
    /** A question comes before all work: who is asked is greeted first. */
    greets: ({ context: { decision, told, log } }) =>
      decision?.step.do === 'ask' && told !== decision && telling.isNew(log),
    asks: ({ context }) => context.decision?.step.do === 'ask',
    isHeld: ({ context }) => isHeld(context),
    isTold: ({ context }) => context.told !== null && context.told === context.decision,
    isWorking: ({ context: { told, decision, place } }) =>
      told !== null && told === decision && place.at === 'line',
    isCheck: ({ context }) => context.decision?.step.do === 'check',
  },
});

const heard = (meaning: Meaning) => ({ type: 'means', params: meaning }) as const;
const aside = (meaning: Meaning) =>
  ({
    guard: heard(meaning),
    target: '.aside',
    actions: ['showHeard', { type: 'setAside', params: meaning }],
  }) as const;
const passed = (meaning: Meaning, type: 'READY' | 'REP' | 'FINISHED' | 'REPEAT' | 'KEPT') =>
  ({
    guard: heard(meaning),
    actions: ['showHeard', { type: 'passMeaning', params: type }],
  }) as const;
/** What is of work alone is taken while it goes on, and nowhere else. */
const ofWork = (meaning: Meaning, type: 'READY' | 'REP' | 'FINISHED') =>
  [
    { ...passed(meaning, type), guard: and([heard(meaning), 'isWorking']) },
    { guard: heard(meaning), actions: 'showNotTaken' },
  ] as const;

/**
 * The whole session: decides from the log, tells why, performs the step, stores what came of it.
 * It only sequences; every decision is the domain's.
 */
export const sessionMachine = session.createMachine({
  id: 'session',
  context: ({ input, self }) =>
    openContext(input, (report) => self.send({ type: 'REPORT', report })),
  invoke: {
    src: 'hearing',
    input: ({ context }) => ({
      ear: context.ports.ear,
      book: context.book,
      settings: context.settings,
      callWord: context.callWord,
      stage: context.stage,
    }),
  },
  initial: 'opening',
  states: {
    opening: {
      // Nothing is asked yet, whatever was before: a key means what it means during work.
      entry: 'attendIdle',
      invoke: {
        src: 'storing',
        input: ({ context }) => passing.toStore(context),
      },
      on: { STORED: { target: 'deciding', actions: ['acknowledge', 'clearStored'] } },
    },
    deciding: {
      entry: ['decide', 'keepNotes', 'clearNotes'],
      always: [
        { guard: 'ends', target: 'concluding' },
        { guard: 'isHeld', target: 'paused' },
        { guard: 'greets', target: 'telling' },
        { guard: 'asks', target: 'asking' },
        { guard: not('isTold'), target: 'telling' },
        { guard: 'isCheck', target: 'checking' },
        { target: 'training' },
      ],
    },
    telling: {
      entry: 'attendIdle',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({
          stage: context.stage,
          texts: ahead.toldTexts(context),
        }),
      },
      on: {
        SPOKEN: [
          { guard: 'asks', target: 'asking', actions: 'markTold' },
          { guard: 'isCheck', target: 'checking', actions: ['markTold', 'showStep'] },
          { target: 'training', actions: ['markTold', 'showStep'] },
        ],
        HEARD: { guard: heard('repeat'), target: 'telling', actions: 'showHeard', reenter: true },
      },
    },
    checking: {
      invoke: {
        id: 'attempt',
        src: 'check',
        input: ({ context }) => ahead.attemptInput(context),
        onDone: {
          target: 'storing',
          actions: [
            assign(({ context, event }) => recording.recordAnswer(context, event.output)),
            'showFindings',
          ],
        },
      },
    },
    training: {
      invoke: {
        id: 'attempt',
        src: 'set',
        input: ({ context }) => ahead.attemptInput(context),
        onDone: {
          target: 'storing',
          actions: [
            assign(({ context, event }) => recording.recordAnswer(context, event.output)),
            'showFindings',
          ],
        },
      },
    },
    asking: {
      invoke: {
        id: 'question',
        src: 'question',
        input: ({ context }) => attempting.questionInput(context),
        onDone: {
          target: 'storing',
          actions: assign(({ context, event }) => recording.recordAskAnswer(context, event.output)),
        },
      },
    },
    storing: {
      invoke: {
        src: 'storing',
        input: ({ context }) => passing.toStore(context),
      },
      on: { STORED: { target: 'deciding', actions: ['acknowledge', 'clearStored'] } },
    },
    aside: {
      entry: 'attendIdle',
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: context.texts }),
      },
      on: { SPOKEN: 'deciding' },
    },
    paused: {
      entry: ['attendIdle', 'showPaused', 'askAnew'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({
          stage: context.stage,
          texts: [say(context.book.lines, 'say.paused', {})],
        }),
      },
    },
    concluding: {
      entry: ['conclude', 'keepNotes', 'clearNotes'],
      invoke: {
        src: 'speaking',
        input: ({ context }) => ({ stage: context.stage, texts: context.texts }),
      },
      on: {
        SPOKEN: 'ended',
        HEARD: [
          // It ends already: what is left to say is cut, and what is on record stays.
          { guard: heard('stop'), target: 'ended', actions: ['signalHalt', 'showHeard'] },
          { guard: heard('stop-again'), target: 'ended', actions: ['signalHalt', 'showHeard'] },
          {
            guard: heard('red-flag'),
            target: 'storing',
            actions: ['hush', 'showHeard', 'recordFlag'],
          },
          { actions: 'showHeard' },
        ],
        DEAF: { actions: 'showDeaf' },
        REPLIES_ENDED: {},
      },
    },
    ended: { entry: 'showEnd', type: 'final' },
    /** For the next person: nothing has ended, and the log goes on where it stands. */
    left: { type: 'final' },
  },
  on: {
    HEARD: [
      { guard: heard('ignored'), actions: ['showHeard', 'pass'] },
      { guard: heard('red-flag'), target: '.storing', actions: ['showHeard', 'recordFlag'] },
      {
        guard: heard('stop'),
        target: '.deciding',
        actions: ['signalHalt', 'showHeard', 'recordHalt'],
      },
      {
        guard: heard('stop-again'),
        target: '.deciding',
        actions: ['signalHalt', 'showHeard'],
      },
      {
        guard: heard('pain'),
        target: '.storing',
        actions: ['showHeard', 'recordPain', 'showFindings'],
      },
      {
        guard: heard('pause'),
        target: '.deciding',
        actions: ['showHeard', 'recordPause'],
      },
      {
        guard: heard('resume'),
        target: '.deciding',
        actions: ['showHeard', 'recordResume'],
      },
      { guard: heard('undo'), target: '.storing', actions: ['showHeard', 'recordUndo'] },
      { guard: heard('overrule'), target: '.storing', actions: ['showHeard', 'recordOverrule'] },
      aside('nothing-to-undo'),
      aside('help'),
      aside('time-left'),
      aside('which'),
      aside('which-one'),
      aside('not-here'),
      aside('nobody-else'),
      aside('pain-first'),
      {
        guard: heard('next-person'),
        target: '.left',
        actions: ['hush', 'showHeard', 'keepNotes', 'clearNotes'],
      },
      aside('lacks'),
      {
        guard: heard('manner'),
        actions: ['showHeard', 'adjustVoice', { type: 'passMeaning', params: 'REPEAT' }],
      },
      {
        guard: heard('words'),
        target: '.aside',
        actions: ['showHeard', 'setWords', 'keepNotes', 'clearNotes'],
      },
      passed('repeat', 'REPEAT'),
      ...ofWork('ready', 'READY'),
      ...ofWork('rep', 'REP'),
      ...ofWork('done', 'FINISHED'),
      {
        guard: heard('kept'),
        actions: ['showHeard', 'keepEarly', { type: 'passMeaning', params: 'KEPT' }],
      },
      { actions: ['showHeard', 'noteHeard', 'keepNotes', 'clearNotes', 'pass'] },
    ],
    SO_FAR: { actions: 'pass' },
    ONSET: { actions: 'pass' },
    NOTHING: { actions: 'pass' },
    DEAF: { target: '.aside', actions: ['showDeaf', 'setDeafAside'] },
    REPORT: { actions: ['followReport', 'keepNotes', 'clearNotes'] },
    REPLIES_ENDED: '.concluding',
  },
});
