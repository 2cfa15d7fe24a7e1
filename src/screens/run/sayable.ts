import type { CueBook } from '../../domain/script';
import type { View } from '../view';
import { subjectOf } from '../words';
import { faultsAt } from './replies';

const FAULTS_SHOWN = 3;

/** The likely things to say at this moment, most likely first; "stop" is always among them. */
export function sayable(book: CueBook, view: View): string[] {
  if (view.phase === 'paused') return ['resume', 'stop'];
  switch (view.prompt) {
    case 'idle':
      return [...whileWorking(view), 'pause', 'pain', 'stop'];
    case 'confirm':
      return ['yes', 'no'];
    case 'pain/how-much':
      return ['zero to ten', 'stop'];
    case 'pain/kind':
      return ['new', 'sharp', 'known', 'stop'];
    default: {
      const faults = faultsAt(book, view.prompt).slice(0, FAULTS_SHOWN);
      const sides = subjectOf(book, view.prompt)?.sided === true ? ['left', 'right'] : [];
      return [
        ...sides,
        'held',
        'short',
        ...faults.map(({ readback }) => readback),
        'pain',
        'repeat',
        'stop',
      ];
    }
  }
}

function whileWorking({ phase, step }: View): string[] {
  if (phase === 'settling' || phase === 'resting') return ['ready'];
  if (phase === 'repeating') return step?.prompt.startsWith('set/') ? ['rep', 'done'] : ['done'];
  return ['repeat'];
}
