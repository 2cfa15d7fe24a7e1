import type { Grammar } from '../domain/hearing/grammar';

/** What was attended from when on: a reply answers the question that was open when it began. */
export class Attended {
  /** The latest last. */
  private readonly each: { grammar: Grammar; fromSeconds: number }[] = [];

  /** @param beganAtSeconds when the talk began that is being heard: nothing before it counts any more. */
  attend(grammar: Grammar, nowSeconds: number, beganAtSeconds: number): void {
    this.each.push({ grammar, fromSeconds: nowSeconds });
    const before = this.each.findLastIndex((each) => each.fromSeconds <= beganAtSeconds);
    this.each.splice(0, before);
  }

  at(seconds: number): Grammar | undefined {
    const { each } = this;
    return (each.findLast(({ fromSeconds }) => fromSeconds <= seconds) ?? each[0])?.grammar;
  }
}
