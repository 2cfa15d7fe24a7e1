export { askOf } from './asking';
export { planStep } from './oneStep';
export { planHomework, planOf } from './wholeRoutine';
