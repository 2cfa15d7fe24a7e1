export { askOf } from './asking';
export { planStep } from './oneStep';
export { planOf } from './wholeRoutine';
