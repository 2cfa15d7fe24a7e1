import type { DeviceEar } from '../ear/deviceEar';

/** Stands where the ear of the device would, for a language that it does not hear: loads nothing. */
export const createNoEar = (): DeviceEar => {
  const ready = Promise.reject(new Error('The ear on this device does not hear this language.'));
  ready.catch(() => undefined);
  const nothing = () => undefined;
  return {
    attend: nothing,
    listen: () => nothing,
    open: () => Promise.resolve('model-missing'),
    onLevel: () => nothing,
    hearsWell: () => 'unknown',
    onSize: () => nothing,
    fit: nothing,
    ready,
    feed: nothing,
    close: nothing,
  };
};
