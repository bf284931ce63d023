/** The bridge: two functions, and nothing of Electron, for the page. Main parses every request and the page every answer. */
import { contextBridge, type IpcRendererEvent, ipcRenderer } from 'electron';
import type { Bridge } from '../../shared-model/wire/frames.ts';
import { callChannel, pushChannel } from './channels.ts';

const bridge: Bridge = {
  call: (name, request) => ipcRenderer.invoke(callChannel(String(name)), request),
  on: (name, listener) => {
    // The event itself stays here: it carries the sender.
    const tell = (_event: IpcRendererEvent, value: unknown): void => listener(value);
    const channel = pushChannel(String(name));
    ipcRenderer.on(channel, tell);
    return () => {
      ipcRenderer.removeListener(channel, tell);
    };
  },
};

contextBridge.exposeInMainWorld('cabward', bridge);
