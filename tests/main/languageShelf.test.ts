// @vitest-environment jsdom
import { beforeEach, expect, it, vi } from 'vitest';
import { chosenCues } from '../../src/main/languageShelf';

const page = vi.hoisted(() => ({ fetched: [] as string[], isReached: true }));
const { fetched } = page;

vi.mock('../../src/cues/page', () => {
  const cues = (language: string) => ({ book: { language }, lexicon: {}, durations: {} });
  return {
    LANGUAGES: ['en', 'es'],
    ownCues: cues('en'),
    otherCues: async (language: string) => {
      page.fetched.push(language);
      if (!page.isReached) throw new Error('offline');
      return cues(language);
    },
  };
});

beforeEach(() => {
  localStorage.clear();
  fetched.length = 0;
  page.isReached = true;
});
const chosen = async () => {
  const found = await chosenCues();
  return { language: found.cues.book.language, missing: found.missing, fetched };
};

it('nothing is fetched where no language was chosen, or the first one', async () => {
  expect(await chosen()).toEqual({ language: 'en', missing: null, fetched: [] });
  localStorage.setItem('sayso-language', 'en');
  expect(await chosen()).toEqual({ language: 'en', missing: null, fetched: [] });
});

it('a language that was chosen here is fetched', async () => {
  localStorage.setItem('sayso-language', 'es');
  expect(await chosen()).toEqual({ language: 'es', missing: null, fetched: ['es'] });
});

it('one that is not reached leaves the first one, and says which is missing', async () => {
  page.isReached = false;
  localStorage.setItem('sayso-language', 'es');
  expect(await chosen()).toEqual({ language: 'en', missing: 'es', fetched: ['es'] });
});

it('one that the page no longer has is forgotten', async () => {
  localStorage.setItem('sayso-language', 'xx');
  expect(await chosen()).toEqual({ language: 'en', missing: null, fetched: [] });
});
