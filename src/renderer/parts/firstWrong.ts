const wrong = [
  '.field[data-invalid] .field__input',
  '.choice[data-invalid] input',
  '.pick[data-invalid] button',
  '.reveal__button--wrong',
];

/** Brings the first field that is marked as wrong into sight and puts the caret there, once the marks are drawn. */
export const goToFirstWrong = (): void =>
  void requestAnimationFrame(() =>
    document.querySelector<HTMLElement>(wrong.map((each) => `main ${each}`).join(', '))?.focus(),
  );
