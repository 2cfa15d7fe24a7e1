interface AskOnceProps {
  question: string;
  yes: string;
  no: string;
  onYes: () => void;
  onNo: () => void;
}

/** Asks once more before something goes; the keyboard stands on what keeps it. */
export const AskOnce = ({ question, yes, no, onYes, onNo }: AskOnceProps) => (
  <div className="ask-once" role="alert">
    <p>{question}</p>
    <div className="pair">
      <button type="button" className="grave" onClick={onYes}>
        {yes}
      </button>
      <button type="button" autoFocus onClick={onNo}>
        {no}
      </button>
    </div>
  </div>
);
