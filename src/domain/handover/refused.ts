/** What travels between a coach and an athlete: the homework, and what came of it. */
export type Travelling = 'homework' | 'report';

/** Something that was handed over is not taken: where in it, why, and what to do. Nothing was changed. */
export class RefusedHandover extends Error {
  /** As in `tasks[1].drill`; empty where it is the whole. */
  readonly place: string;

  /** `what`: null where it is neither, or cannot be told. `todo`: what to do, where it is not asking for it again. */
  constructor(what: Travelling | null, place: string, reason: string, todo = AGAIN[what ?? 'any']) {
    super(`${place === '' ? '' : `At ${place}: `}${reason} ${todo}`);
    this.name = 'RefusedHandover';
    this.place = place;
  }
}

const AGAIN = {
  homework: 'Nothing was kept of it. Ask your coach to hand it over again.',
  report: 'Nothing was brought in. Ask the athlete to send it again.',
  any: 'Nothing was kept of it. Have it sent again, and open it as it came.',
};
