import { RefusedRecord } from './wholeRecord';

/** More than any record has: people, sessions and a reply inside a reply are 8 deep. */
const DEPTH_MOST = 32;
/** Letters of a name at most, with escapes. */
const NAME_MOST = 200;
/** Letters that each list or object takes at least, on the average; in a finding it is about 90. */
const LETTERS_EACH = 16;
/** A short text may have more of them. */
const LETTERS_SPARE = 1000;
/** Names by which a file could reach into what all objects share. */
const NEVER = ['__proto__', 'constructor', 'prototype'];

interface Open {
  /** Names so far; null in a list. */
  names: Set<string> | null;
  /** The name or the index where it stands. */
  at: string | number;
}

/**
 * The value of a JSON text. Throws RefusedRecord where it is none, has a name twice in an object,
 * one that no record has (`__proto__`), or is deeper or fuller of lists than any
 * record: `JSON.parse` takes all of that.
 */
export function strictJson(text: string): unknown {
  const open: Open[] = [];
  const place = () => placeOf(open.map(({ at }) => at));
  let awaitsName = false;
  // Millions of empty lists take a browser many seconds and gigabytes.
  let left = (text.length + LETTERS_SPARE) / LETTERS_EACH;
  for (let at = 0; at < text.length; at += 1) {
    const inside = open.at(-1);
    const letter = text[at];
    if (letter === '"') {
      const end = endOfString(text, at);
      if (inside?.names && awaitsName) {
        inside.at = nameIn(text.slice(at, end));
        if (end - at > NAME_MOST || NEVER.includes(inside.at))
          throw new RefusedRecord(place(), 'no record has that name.');
        if (inside.names.has(inside.at))
          throw new RefusedRecord(place(), 'the name stands there twice.');
        inside.names.add(inside.at);
        awaitsName = false;
      }
      at = end - 1;
    } else if (letter === '{' || letter === '[') {
      open.push({ names: letter === '{' ? new Set() : null, at: letter === '{' ? '' : 0 });
      awaitsName = letter === '{';
      left -= 1;
      if (left < 0) throw new RefusedRecord(place(), 'no record has so many lists and objects.');
      if (open.length > DEPTH_MOST) {
        const outer = placeOf(open.slice(0, 3).map(({ at: name }) => name));
        throw new RefusedRecord(outer, `it is more than ${DEPTH_MOST} deep; no record is.`);
      }
    } else if (letter === '}' || letter === ']') {
      open.pop();
      awaitsName = false;
    } else if (letter === ',' && inside) {
      awaitsName = inside.names !== null;
      if (typeof inside.at === 'number') inside.at += 1;
    }
  }
  try {
    return JSON.parse(text) as unknown;
  } catch {
    throw new RefusedRecord('', 'The file is no whole JSON: it was cut off or changed.');
  }
}

/** Behind the closing quotation mark; at the end of the text where there is none. */
function endOfString(text: string, from: number): number {
  for (let at = from + 1; ;) {
    const quote = text.indexOf('"', at);
    if (quote === -1) return text.length;
    let slashes = 0;
    while (text[quote - 1 - slashes] === '\\') slashes += 1;
    if (slashes % 2 === 0) return quote + 1;
    at = quote + 1;
  }
}

/** A name as it is meant: letters may be written as escapes. */
function nameIn(quoted: string): string {
  try {
    return String(JSON.parse(quoted));
  } catch {
    return quoted;
  }
}

/** As in `sessions[3].entries[17].atSeconds`. */
export const placeOf = (path: readonly PropertyKey[]): string =>
  path
    .map((at, depth) =>
      typeof at === 'number' ? `[${at}]` : `${depth === 0 || at === '' ? '' : '.'}${short(at)}`,
    )
    .join('');

/** A name in a file that is no record may be as long as the file. */
const short = (name: PropertyKey): string => {
  const text = String(name);
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
};
