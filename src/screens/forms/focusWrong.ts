/** Takes the keyboard to the first field of a form that is marked as wrong. */
export const focusWrong = (form: HTMLElement | null): void =>
  form?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
