import type { CueBook } from '../../domain/script';
import type { View } from '../view';
import { subjectOf } from '../words';
import { faultsAt } from './replies';
import { hasSelfCheck } from './selfCheck';

const FAULTS_SHOWN = 2;

/** All that is taken over Sayso's own voice, with one red flag for its kind. */
const OVER_SPEECH = ['stop', 'pause', 'pain', 'dizzy'];

/** The likely things to say at this moment; "stop" always works and has its own large button. */
export function sayable(book: CueBook, view: View, isHomework: boolean): string[] {
  if (view.phase === 'paused') return ['resume'];
  if (isSpoken(view)) return OVER_SPEECH;
  switch (view.prompt) {
    case 'idle':
      return [...whileWorking(view), 'pause', 'pain'];
    case 'confirm':
      return view.either ? [...view.either.map(({ words }) => words), 'no'] : ['yes', 'no'];
    case 'pain/how-much':
      return ['zero to ten'];
    case 'pain/kind':
      return ['new', 'sharp', 'known'];
    default: {
      const faults = faultsAt(book, view.prompt).slice(0, FAULTS_SHOWN);
      const sides = subjectOf(book, view.prompt)?.sided === true ? ['left', 'right'] : [];
      if (isHomework && hasSelfCheck(book, view.prompt)) return ['yes', 'no', 'pain'];
      return [...sides, 'held', 'short', ...faults.map(({ readback }) => readback), 'pain'];
    }
  }
}

/** Words are being said that nothing but a halt or harm may break into. */
const isSpoken = ({ phase, prompt }: View): boolean =>
  phase === null ||
  phase === 'cueing' ||
  phase === 'asking' ||
  (phase === 'confirming' && prompt !== 'confirm');

function whileWorking({ phase, step }: View): string[] {
  if (phase === 'settling' || phase === 'resting') return ['ready'];
  if (phase === 'repeating') return step?.prompt.startsWith('set/') ? ['rep', 'done'] : ['done'];
  return ['repeat'];
}
