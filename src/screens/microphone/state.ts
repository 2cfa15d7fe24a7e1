/** The check of the microphone that runs or has run. */
export interface MicrophoneCheckState {
  stage: 'loading';
}

/** What a person may do in the check of the microphone. */
export interface MicrophoneCheckHands {
  /** From a tap, at the gate. */
  begin(): void;
  /** Back to the gate. */
  leave(): void;
}
