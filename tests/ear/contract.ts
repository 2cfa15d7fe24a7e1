import { describe, expect, test } from 'vitest';
import type { Ear, Hearing } from '../../src/ports';

/** An ear, and a way to make it hear one reply to the end. */
export interface EarUnderTest {
  ear: Ear;
  /** Somebody gives one reply, any reply. */
  answer: () => void | Promise<void>;
}

const answersIn = (hearings: Hearing[]) =>
  hearings.filter((hearing) => hearing.type === 'words' || hearing.type === 'reply');

/** What every ear keeps, whatever it is made of. */
export function earContract(name: string, make: () => EarUnderTest | Promise<EarUnderTest>): void {
  describe(`${name} keeps what an ear promises`, () => {
    test('an answer is told once, with the prompt that was attended', async () => {
      const { ear, answer } = await make();
      const heard: Hearing[] = [];
      ear.listen((hearing) => heard.push(hearing));
      ear.attend('set/deadlift');
      ear.attend('check/hinge-bar');
      await answer();
      expect(answersIn(heard)).toHaveLength(1);
      expect(answersIn(heard)[0]).toMatchObject({ prompt: 'check/hinge-bar' });
    });

    test('a new prompt counts for the next answer', async () => {
      const { ear, answer } = await make();
      const heard: Hearing[] = [];
      ear.listen((hearing) => heard.push(hearing));
      ear.attend('check/hinge-bar');
      await answer();
      ear.attend('confirm');
      await answer();
      expect(answersIn(heard).map((hearing) => 'prompt' in hearing && hearing.prompt)).toEqual([
        'check/hinge-bar',
        'confirm',
      ]);
    });

    test('after cancelling, twice even, nothing more is told', async () => {
      const { ear, answer } = await make();
      const heard: Hearing[] = [];
      const cancel = ear.listen((hearing) => heard.push(hearing));
      ear.attend('confirm');
      cancel();
      cancel();
      await answer();
      expect(heard).toEqual([]);
    });

    test('a listener that leaves while being told disturbs no other', async () => {
      const { ear, answer } = await make();
      const others: Hearing[] = [];
      const cancel = ear.listen(() => cancel());
      ear.listen((hearing) => others.push(hearing));
      ear.attend('confirm');
      await answer();
      expect(answersIn(others)).toHaveLength(1);
    });
  });
}
