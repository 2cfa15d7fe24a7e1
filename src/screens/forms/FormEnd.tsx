import { Trouble } from './Trouble';

/** Keeps what the form holds, or leaves it; `trouble`: why it could not be kept, and what to do. */
export const FormEnd = ({
  keep,
  onClose,
  trouble,
}: {
  keep: string;
  onClose: () => void;
  trouble: string | null;
}) => (
  <>
    <div className="pair">
      <button type="submit" className="first">
        {keep}
      </button>
      <button type="button" onClick={onClose}>
        Cancel
      </button>
    </div>
    <Trouble words={trouble} />
  </>
);
