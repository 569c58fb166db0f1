import { useSession } from '../stores/session.ts';

/** Puts the theme on the page: chosen here, or as the machine has it. */
export function followTheme(page: HTMLElement): void {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const put = (): void => {
    const { theme } = useSession.getState();
    page.dataset['theme'] = theme === 'system' ? (dark.matches ? 'dark' : 'light') : theme;
  };
  put();
  useSession.subscribe(put);
  dark.addEventListener('change', put);
}
