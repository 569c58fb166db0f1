// Runs sandboxed between page and program: passes texts and a wish to stay awake, and never hands an Electron object to the page.
import { contextBridge, ipcRenderer } from 'electron';
import { channels } from './channels.ts';

const bridge = {
  send: (text: string): void => ipcRenderer.send(channels.toBench, text),
  onText: (listener: (text: string) => void): void => {
    ipcRenderer.on(channels.fromBench, (_event, text: string) => listener(text));
  },
  keepAwake: (on: boolean): void => ipcRenderer.send(channels.awake, on),
  onPresence: (listener: (present: boolean) => void): void => {
    listener(true);
    ipcRenderer.on(channels.presence, (_event, present: boolean) => listener(present));
  },
};

contextBridge.exposeInMainWorld('axlewright', bridge);
