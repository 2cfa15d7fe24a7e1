import type { Reply } from '../domain/hearing/reply';
import type { PromptId } from '../domain/script';

/** Whether a reply settles the question of that prompt (other commands are the session's). */
export function answers(prompt: PromptId, reply: Reply | null): boolean {
  if (reply === null) return false;
  if (prompt === 'pain/how-much') return reply.pain !== null;
  if (prompt === 'pain/kind') return reply.painKind !== null || isYesOrNo(reply);
  if (prompt === 'confirm') return isYesOrNo(reply) || reply.command === 'resume';
  return reply.result !== null;
}

const isYesOrNo = (reply: Reply): boolean => reply.command === 'yes' || reply.command === 'no';
