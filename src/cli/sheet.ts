import type { Entry } from '../domain/log';
import {
  readinessSheet,
  type ReadinessSheet,
  type SheetAsked,
} from '../domain/reporting/sheet/readinessSheet';
import { READINESS_FORMS, type ReadinessFormName } from '../records/readinessFile';
import { Refused, WrongUsage } from './refused';
import { readSessionFile } from './sessionFile';
import { bookOf, onlyOne, parse, routineOf, type Verb } from './verb';

export const sheet: Verb = {
  does: 'the readiness sheet of a recorded session: text, HTML, CSV or FHIR R4',
  usage:
    'Usage: sayso sheet SESSION.json --as text|html|csv|fhir [--name NAME]\n' +
    '       [--name-as initials|whole] [--note TEXT] [--language en]\n\n' +
    'SESSION.json is what "rehearse --session" wrote. Nobody is named unless --name is given, and\n' +
    'then by initials unless --name-as is whole. --note adds what the coach noted. The language is\n' +
    'that of the session.',
  run(args) {
    const { values, positionals } = parse(args, ['as', 'name', 'name-as', 'note']);
    const path = onlyOne(positionals);
    if (path === undefined) throw new WrongUsage('Name the session: sheet SESSION.json.');
    const { write } = READINESS_FORMS[formOf(values.as)];
    const { name, note } = values;
    const asked = { name, nameAs: nameAsOf(values['name-as']), notes: note ? [note] : [] };
    const text = write(sheetOf(path, readSessionFile(path), values.language, asked));
    console.log(text.replace(/\n$/, ''));
    return 0;
  },
};

function formOf(given = ''): ReadinessFormName {
  const forms = Object.keys(READINESS_FORMS) as ReadinessFormName[];
  const form = forms.find((one) => one === given);
  if (form === undefined) throw new WrongUsage(`--as is one of ${forms.join(', ')}.`);
  return form;
}

function nameAsOf(given = 'initials'): 'initials' | 'whole' {
  if (given !== 'initials' && given !== 'whole') {
    throw new WrongUsage('--name-as is initials or whole.');
  }
  return given;
}

function sheetOf(
  path: string,
  entries: readonly Entry[],
  language: string | undefined,
  asked: SheetAsked,
): ReadinessSheet {
  const started = entries.find((entry) => entry.type === 'started');
  const book = bookOf(language ?? started?.language);
  if (started?.homework === undefined) routineOf(book, started?.routine);
  try {
    return readinessSheet(book, entries, asked);
  } catch (problem) {
    throw new Refused(
      `${path}: the log cannot be followed (${(problem as Error).message}). It may be of other scripts, or damaged: take another copy of it.`,
    );
  }
}
