import type { EarTrouble } from '../ports';
import workletAddress from './worklet.ts?worker&url';

/** A microphone that is open. */
export interface Microphone {
  sampleRate: number;
  /** Its sound goes through this port from now on. */
  sendTo(port: MessagePort): void;
  close(): void;
}

/**
 * Echo cancelling on: the room hears our own cues. Noise suppression off: it eats consonants, and
 * the recogniser was trained in noise. Gain control on: a coach speaks from the rack and from
 * across the room.
 */
const WANTED: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: true,
};

const TROUBLE_OF: Record<string, EarTrouble> = {
  NotAllowedError: 'denied',
  SecurityError: 'denied',
  NotFoundError: 'no-microphone',
  OverconstrainedError: 'no-microphone',
  NotReadableError: 'no-microphone',
  AbortError: 'no-microphone',
};

/**
 * Asks for the microphone. `ended` is called once if it is taken away later.
 * Must be called from a tap, or the sound stays suspended.
 */
export async function openMicrophone(ended: () => void): Promise<Microphone | EarTrouble> {
  // A page that is not secure has no microphones at all.
  const devices = (navigator as Partial<Navigator>).mediaDevices;
  if (devices === undefined) return 'no-microphone';
  const context = new AudioContext({ latencyHint: 'interactive' });
  try {
    const stream = await devices.getUserMedia({ audio: WANTED });
    await context.audioWorklet.addModule(workletAddress);
    const source = context.createMediaStreamSource(stream);
    const gathering = new AudioWorkletNode(context, 'gathering', {
      numberOfInputs: 1,
      numberOfOutputs: 0,
      channelCount: 1,
      channelCountMode: 'explicit',
    });
    source.connect(gathering);
    await context.resume();
    const [track] = stream.getTracks();
    track?.addEventListener('ended', ended, { once: true });
    // A call or a headset change suspends the sound; it comes back by itself where it may.
    context.onstatechange = () => {
      if (context.state !== 'running' && context.state !== 'closed') void context.resume();
    };
    return {
      sampleRate: context.sampleRate,
      sendTo: (port) => gathering.port.postMessage(port, [port]),
      close: () => {
        track?.removeEventListener('ended', ended);
        context.onstatechange = null;
        for (const each of stream.getTracks()) each.stop();
        void context.close();
      },
    };
  } catch (problem) {
    void context.close();
    return TROUBLE_OF[problem instanceof DOMException ? problem.name : ''] ?? 'worker-failed';
  }
}
