/** The Chromium that every test and bench starts: `CHROMIUM` names it. */
export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** What every Chromium is started with: nothing of it goes out, asks or waits for a graphics card. */
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
