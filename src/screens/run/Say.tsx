import type { Command, Reply } from '../../domain/hearing/reply';
import { commandOf } from './replies';

export interface Send {
  send: (reply: Reply) => void;
}

const COMMAND_WORDS: Partial<Record<Command, string>> = {
  again: 'One more',
  back: 'Back a rung',
  next: 'Next rung',
  'time-left': 'Time left',
  'fewer-words': 'Fewer words',
  'more-words': 'More words',
  rep: 'Next rep',
  done: 'Set done',
};

const wordsOf = (command: Command): string =>
  COMMAND_WORDS[command] ?? command.charAt(0).toUpperCase() + command.slice(1);

/** The touch twin of one spoken command. */
export const Say = ({
  send,
  command,
  className = '',
  words,
}: Send & { command: Command; className?: string; words?: string }) => (
  <button type="button" className={className} onClick={() => send(commandOf(command))}>
    {words ?? wordsOf(command)}
  </button>
);
