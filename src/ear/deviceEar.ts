import { openMicrophone } from './microphone';
import { startWorker } from './startWorker';
import { createWorkerEar, type DeviceEar, type DeviceEarOptions } from './workerEar';

export type { DeviceEar, DeviceEarOptions } from './workerEar';
export type { HearsWell } from './levels';

/**
 * The ear of this browser: starts its worker and the loading of its models at once; the
 * microphone is asked for by `open`, from a tap.
 */
export const createDeviceEar = (options: DeviceEarOptions): DeviceEar =>
  createWorkerEar(options, {
    startWorker,
    openMicrophone,
    onDevices: (run) => {
      const permission = microphonePermission();
      void permission.then((status) => status?.addEventListener('change', run));
      navigator.mediaDevices.addEventListener('devicechange', run);
      return () => {
        void permission.then((status) => status?.removeEventListener('change', run));
        navigator.mediaDevices.removeEventListener('devicechange', run);
      };
    },
    inputs: async () => {
      const devices = await navigator.mediaDevices.enumerateDevices();
      return devices.filter(({ kind }) => kind === 'audioinput').map((each) => each.deviceId);
    },
  });

/** Null where the browser does not tell. */
async function microphonePermission(): Promise<PermissionStatus | null> {
  const { permissions } = navigator as Partial<Navigator>;
  return permissions?.query({ name: 'microphone' }).catch(() => null) ?? null;
}
