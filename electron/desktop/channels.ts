/** Names of the channels between preload and main. The prefixes keep the page from any other channel. */

export const callChannel = (name: string): string => `cabward-call:${name}`;
export const pushChannel = (name: string): string => `cabward-push:${name}`;
