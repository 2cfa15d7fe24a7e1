import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { personOf, visitOf } from '../../src/cli/inventedClub';
import { CLUB } from '../../src/cli/inventedVisits';
import { bookOf } from '../../src/cli/verb';
import type { InventedClub } from '../../src/domain/people/inventedClub';

const text = readFileSync('public/invented-club/club.json', 'utf8');
const club = JSON.parse(text) as InventedClub;
const book = bookOf();

describe('the file of the invented club', () => {
  it('is marked as invented in its name, its squads and each of twelve people', () => {
    expect(club.name).toMatch(/invented/i);
    expect(club.people).toHaveLength(12);
    expect(new Set(club.people.map(({ name }) => name)).size).toBe(12);
    for (const { id, squad, isInvented } of club.people) {
      expect(isInvented).toBe(true);
      expect(id).toMatch(/^invented-\d\d$/);
      expect(squad).toMatch(/invented/i);
    }
    expect(new Set(club.people.map(({ squad }) => squad)).size).toBe(2);
  });

  it('holds people as they are written in the visits', () => {
    expect(club.people).toEqual(CLUB.map(personOf));
  });

  // After a change of rules, cues or durations: npx tsx src/cli/writeInventedClub.ts
  it.each([
    ['a hinge that held', 0, 1],
    ['pain that was sharp', 5, 0],
    ['a warning sign', 9, 1],
  ] as const)('holds visits as the machines run them now: %s', (_, who, at) => {
    const entries = visitOf(book, CLUB[who]!, at);
    expect(club.sessions[who * 3 + at]).toEqual(JSON.parse(JSON.stringify(entries)));
  });

  it('has an end in every session, and replies enough for each', () => {
    expect(club.sessions).toHaveLength(36);
    for (const session of club.sessions) {
      const end = session.at(-1);
      expect(end).toMatchObject({ type: 'ended' });
      expect(end).not.toMatchObject({ reason: 'replies-ended' });
    }
  });

  it('is small enough to be fetched on a tap', () => {
    expect(gzipSync(text).length).toBeLessThan(400_000);
  });
});
