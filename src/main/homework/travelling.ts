/** What travels, in every way that it can: a link, a code, a file. */
import type { Handover } from '../../domain/handover/handover';
import { reportBack, type ReportedSession } from '../../domain/handover/returning';
import type { Travels } from '../../screens/homework/state';
import { codeOf } from './code';
import { homeworkText, linkOf, reportText } from './writing';

/** It, with the text of its file. */
export interface Made {
  travels: Omit<Travels, 'canShare'>;
  text: string;
}

/** Homework on its way to an athlete; `address`: of the page. */
export async function homeworkTravels(address: string, handover: Handover): Promise<Made> {
  const text = homeworkText(handover);
  const link = await linkOf(address, 'homework', text);
  return {
    text,
    travels: {
      ...{ link, code: link === null ? null : codeOf(link), sessions: null },
      file: `sayso-homework-${handover.madeAt.slice(0, 10)}.json`,
    },
  };
}

/**
 * What came of homework on its way to the coach. The file holds all sessions (oldest first); link
 * and code as many of the last as they can.
 */
export async function reportTravels(
  address: string,
  handover: string,
  logs: readonly ReportedSession[],
  madeAt: string,
): Promise<Made> {
  const linkFrom = (first: number) =>
    linkOf(address, 'report', reportText(reportBack(handover, logs.slice(first)), madeAt));
  let inLink = 0;
  let inCode = 0;
  let link: string | null = null;
  let code: Travels['code'] = null;
  for (let count = 1; count <= logs.length; count += 1) {
    const longer = await linkFrom(logs.length - count);
    if (longer === null) break;
    [link, inLink] = [longer, count];
    const drawn = codeOf(longer);
    if (drawn !== null) [code, inCode] = [drawn, count];
  }
  return {
    text: reportText(reportBack(handover, logs), madeAt),
    travels: {
      ...{ link, code, sessions: { all: logs.length, inLink, inCode } },
      file: `sayso-homework-report-${madeAt.slice(0, 10)}.json`,
    },
  };
}
