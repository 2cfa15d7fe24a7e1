/** What is printed once Sayso is served. */

/** @param {number} port */
export const servedHere = (port) =>
  `Sayso is at http://localhost:${port}\nCtrl+C ends it. For a phone at the rack: npm start -- --phone`;

/**
 * @param {number} port
 * @param {string[]} addresses of this computer on the network
 */
export function servedToPhones(port, addresses) {
  const reach =
    addresses.length === 0
      ? [
          'This computer is on no network that a phone could reach. Join the same Wi-Fi as the phone and start again.',
        ]
      : [
          'On a phone or tablet on the same network open:',
          ...addresses.map((address) => `  https://${address}:${port}`),
        ];
  return [
    `Sayso is at https://localhost:${port}`,
    ...reach,
    '',
    'What the phone will ask:',
    '  1. It warns that the connection is not private: the certificate was made on this computer',
    '     and nobody else vouches for it. Android: Advanced, then Proceed. iPhone: Show Details,',
    '     then visit this website. Do this only for the address above, on a network you trust.',
    '  2. It asks to use the microphone: allow it. Sound never leaves the phone.',
    'Keep this computer on. With a certificate passed by hand a phone does not install the page for',
    'offline use; the folder that `npm run build` makes can be put on any HTTPS host instead.',
    'If the page does not open, let the firewall of this computer pass the port above.',
    'Ctrl+C ends it.',
  ].join('\n');
}
