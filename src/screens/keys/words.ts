import { HEADSET_BUTTON, type Deed, type Refusal } from '../../domain/hearing/deeds';

/** A deed by its name, and what it does where the name does not say it. */
export const DEED_WORDS: Readonly<Record<Deed, { name: string; means?: string }>> = {
  forward: {
    name: 'Forward',
    means: '“Held” at a check or set, “yes” where it asks again, “ready” during work.',
  },
  back: { name: 'Back', means: '“No” where it asks again; else the last thing is taken back.' },
  lost: { name: 'Lost', means: 'At a check or set.' },
  short: { name: 'Short', means: 'At a check or set.' },
  hurts: { name: 'It hurts', means: 'At any moment: the work pauses, and the number is asked.' },
  stop: { name: 'Stop', means: 'At any moment. Escape always does it.' },
  pause: { name: 'Pause' },
  resume: { name: 'Resume' },
  repeat: { name: 'Say it again' },
  undo: { name: 'Undo', means: 'Takes the last thing back.' },
  skip: { name: 'Skip' },
  done: { name: 'Done', means: 'The set, or the work, is done.' },
  rep: { name: 'One repetition', means: 'Counts it, in a set without a tempo.' },
  next: { name: 'Next', means: 'On to the next drill.' },
  'next-person': { name: 'Next person', means: 'On a squad day.' },
  'time-left': { name: 'How long it takes still' },
  help: { name: 'Help', means: 'Says what can be answered now.' },
  louder: { name: 'Louder' },
  quieter: { name: 'Quieter' },
  slower: { name: 'Slower' },
  faster: { name: 'Faster' },
};

/** Deeds in the order in which a coach looks for them. */
export const GROUPS: readonly { title: string; deeds: readonly Deed[] }[] = [
  { title: 'Answers', deeds: ['forward', 'back', 'lost', 'short', 'hurts'] },
  { title: 'Stop and pause', deeds: ['stop', 'pause', 'resume'] },
  {
    title: 'On the way',
    deeds: ['repeat', 'undo', 'skip', 'done', 'rep', 'next', 'next-person', 'time-left', 'help'],
  },
  { title: 'The voice', deeds: ['louder', 'quieter', 'slower', 'faster'] },
];

const KEY_WORDS: Readonly<Record<string, string>> = {
  ' ': 'Space',
  ArrowDown: 'Down arrow',
  ArrowLeft: 'Left arrow',
  ArrowRight: 'Right arrow',
  ArrowUp: 'Up arrow',
  PageDown: 'Page down',
  PageUp: 'Page up',
  AudioVolumeDown: 'Volume down',
  AudioVolumeUp: 'Volume up',
  MediaStop: 'Headset: stop',
  MediaTrackNext: 'Headset: next',
  MediaTrackPrevious: 'Headset: previous',
  [HEADSET_BUTTON]: 'Headset: its one button',
};

/** What stands on the key, or what the button is called. */
export const keyWords = (key: string): string =>
  KEY_WORDS[key] ??
  (key.length === 1 ? key.toUpperCase() : key.replace(/(?<=[a-z])(?=[A-Z])/g, ' '));

export const REFUSAL_WORDS: Readonly<Record<Refusal, string>> = {
  stops: 'Escape always stops.',
  moves: 'Tab goes from one control to the next. Press another key.',
  'held-with-others': 'That key does nothing alone. Press another one.',
  nameless:
    'That key does not tell which one it is, so it cannot be known again. Press another one.',
};

const NO_STOP_WORDS = 'It will stop no more; Escape, “stop” aloud and the screen still do.';

/** What a key does now, and from now on. */
export function changeWords(key: string, from: Deed | null, to: Deed): string {
  const now = from === null ? 'nothing' : DEED_WORDS[from].name;
  const words = `“${keyWords(key)}” is “${now}” now. It becomes “${DEED_WORDS[to].name}”.`;
  return from === 'stop' ? `${words} ${NO_STOP_WORDS}` : words;
}

/** Of a key that stops. */
export const takeAwayWords = (key: string): string =>
  `“${keyWords(key)}” is “Stop” now. ${NO_STOP_WORDS}`;

/** What a key does now. */
export const doesWords = (key: string, deed: Deed | null): string =>
  deed === null
    ? `“${keyWords(key)}” does nothing.`
    : `“${keyWords(key)}”: ${DEED_WORDS[deed].name}.`;
