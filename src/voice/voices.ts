/** A voice of the shipped synthesiser and how it is spoken. */
export interface ShippedVoice {
  name: 'slt' | 'rms' | 'kal16' | 'awb';
  /** Duration factor, 0.5 to 2; 1 is the voice's own pace, larger is slower. */
  stretch: number;
  /** What tells words apart is raised, to be followed in a loud room; not where left out. */
  isClear?: boolean;
}

/** Speaks the cues: about 145 words a minute inside a line (a test measures it). */
export const SAYSO_VOICE: ShippedVoice = { name: 'slt', stretch: 1.45, isClear: true };

/** The recorded coach of the rehearsal: another speaker, at an everyday pace. */
export const COACH_VOICE: ShippedVoice = { name: 'rms', stretch: 1.1 };
