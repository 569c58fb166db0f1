import { create } from 'zustand';

/** Whether the help lies on the stage. */
export const useHelpOpen = create<{ readonly open: boolean }>()(() => ({ open: false }));

export const setHelpOpen = (open: boolean): void => useHelpOpen.setState({ open });
export const toggleHelp = (): void => useHelpOpen.setState(({ open }) => ({ open: !open }));
