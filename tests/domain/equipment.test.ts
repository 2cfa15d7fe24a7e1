import { describe, expect, it } from 'vitest';
import { equipmentOf } from '../../src/domain/equipment';
import { book } from './deciding/book';

const of = (id: string) => {
  const routine = book.routines[id];
  return routine === undefined ? [] : equipmentOf(book, routine).map((one) => one.id);
};

describe('what a routine may need', () => {
  it('is that of its drills, their alternates and its checks, once, in the order of the table', () => {
    expect(of('squat')).toEqual(['barbell', 'cable', 'kettlebell', 'plate', 'rack', 'stick']);
    expect(of('hinge')).toEqual([
      'band',
      'barbell',
      'bench',
      'kettlebell',
      'rack',
      'stick',
      'two-bells',
    ]);
  });

  it('leaves out what has something that does as well', () => {
    expect(of('overhead')).toEqual(['band', 'bar-above', 'corner-bar', 'light-bell']);
  });

  it('is all of it for all areas together', () => {
    const all = new Set([...of('overhead'), ...of('squat'), ...of('hinge')]);
    expect(of('readiness')).toEqual(Object.keys(book.equipment).filter((id) => all.has(id)));
  });
});
