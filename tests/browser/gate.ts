import type { Locator, Page } from 'playwright-core';

/** A form under "Words" at the start gate, which is unfolded where it is folded. */
export async function formAtGate(
  page: Page,
  name: 'Words of your own' | 'Call word',
): Promise<Locator> {
  const form = page.getByRole('form', { name });
  if (!(await form.isVisible())) await page.locator('summary', { hasText: /^Words/ }).click();
  return form;
}

/** Adds words for the reply that is shown so, and waits for what is said of them. */
export async function addOwnWords(page: Page, reply: string, words: string): Promise<void> {
  const form = await formAtGate(page, 'Words of your own');
  await form.getByLabel('For').selectOption({ label: reply });
  await form.getByLabel('I say').fill(words);
  await form.getByRole('button', { name: 'Add' }).click();
  await form.getByRole('status').filter({ hasText: /[.“]/ }).waitFor({ timeout: 20_000 });
}
