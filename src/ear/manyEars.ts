import type { Ear } from '../ports';

/** Several ears as one: all attend the same prompt, and what any of them hears is heard. */
export const manyEars = (ears: Ear[]): Ear => ({
  attend: (prompt) => {
    for (const ear of ears) ear.attend(prompt);
  },
  listen: (onHearing) => {
    const cancels = ears.map((ear) => ear.listen(onHearing));
    return () => {
      for (const cancel of cancels) cancel();
    };
  },
});
