import type { EarTrouble } from '../ports';
import workletAddress from './worklet.ts?worker&url';

/** A microphone that is open. */
export interface Microphone {
  sampleRate: number;
  /** The sound of this page is taken out of it, so that a word spoken over that sound is heard. */
  cancelsEcho: boolean;
  /** Its sound goes through this port from now on. */
  sendTo(port: MessagePort): void;
  close(): void;
}

/**
 * Echo cancelling on: the room hears our own cues. Noise suppression off: it cost a sixth of the
 * replies, since the recogniser was trained in noise and not behind a suppressor. Gain control off:
 * the recogniser brings each reply to its own level and hears a voice 30 dB fainter as well, while
 * a gain that lifts the room in the pauses hides where a reply ends. (DEVELOPERS.md, noise.)
 */
const WANTED: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: false,
};

const TROUBLE_OF: Record<string, EarTrouble> = {
  NotAllowedError: 'denied',
  SecurityError: 'denied',
};

/** Not where the browser says no or nothing, or cancels the sound of calls alone ('remote-only'). */
function doesCancelEcho(track: MediaStreamTrack): boolean {
  const { echoCancellation }: { echoCancellation?: unknown } = track.getSettings();
  return echoCancellation === true || echoCancellation === 'all';
}

/** What becomes of a microphone that was opened. */
export interface MicrophoneFate {
  /** It was taken away: unplugged, or its permission revoked. Called once. */
  ended: () => void;
  /** It hears nothing for now, or again: a call has it, the system muted it, or sound stands. */
  muted: (isMuted: boolean) => void;
}

/**
 * Asks for the microphone, and tells what becomes of it.
 * Must be called from a tap, or the sound stays suspended.
 */
export async function openMicrophone({
  ended,
  muted,
}: MicrophoneFate): Promise<Microphone | EarTrouble> {
  // A page that is not secure has no microphones at all.
  const devices = (navigator as Partial<Navigator>).mediaDevices;
  if (devices === undefined) return 'no-microphone';
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia({ audio: WANTED });
  } catch (problem) {
    // None there, none that fits, or one that another program holds.
    return TROUBLE_OF[(problem as DOMException).name] ?? 'no-microphone';
  }
  const context = new AudioContext({ latencyHint: 'interactive' });
  const [track] = stream.getTracks();
  const look = () => muted(track?.muted === true || context.state !== 'running');
  const close = () => {
    track?.removeEventListener('ended', ended);
    track?.removeEventListener('mute', look);
    track?.removeEventListener('unmute', look);
    context.onstatechange = null;
    for (const each of stream.getTracks()) each.stop();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule(workletAddress);
  } catch {
    close();
    return 'worker-failed';
  }
  const gathering = new AudioWorkletNode(context, 'gathering', {
    numberOfInputs: 1,
    numberOfOutputs: 0,
    channelCount: 1,
    channelCountMode: 'explicit',
  });
  context.createMediaStreamSource(stream).connect(gathering);
  track?.addEventListener('ended', ended, { once: true });
  track?.addEventListener('mute', look);
  track?.addEventListener('unmute', look);
  // A call or a headset change suspends the sound; it comes back by itself where it may.
  const resume = () => void context.resume().catch(() => undefined);
  context.onstatechange = () => {
    if (context.state !== 'running' && context.state !== 'closed') resume();
    look();
  };
  resume();
  look();
  return {
    sampleRate: context.sampleRate,
    cancelsEcho: track !== undefined && doesCancelEcho(track),
    sendTo: (port) => gathering.port.postMessage(port, [port]),
    close,
  };
}
