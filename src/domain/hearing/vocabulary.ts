/** Every reply once: its meaning, the ways to say it, what it is easily mistaken for. */
export interface Vocabulary {
  language: string;
}
