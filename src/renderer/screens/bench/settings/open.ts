import { create } from 'zustand';

/** Whether the settings lie on the stage. */
export const useSettingsOpen = create<{ readonly open: boolean }>()(() => ({ open: false }));

export const setSettingsOpen = (open: boolean): void => useSettingsOpen.setState({ open });
export const toggleSettings = (): void => useSettingsOpen.setState(({ open }) => ({ open: !open }));
