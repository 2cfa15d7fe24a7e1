import { checksOf, type CueBook, type Equipment, type Routine } from './script';

/**
 * What the drills, alternates and checks of a routine may need and what a gym may lack, in the
 * order of the table. What has something that does as well in every room is not among it.
 */
export function equipmentOf(book: CueBook, routine: Routine): Equipment[] {
  const needed = new Set(
    routine.items.flatMap((item) => {
      const rungs = item.do === 'ladder' ? (book.ladders[item.area]?.rungs ?? []) : [];
      const drills = rungs.flatMap(({ drill, alternates }) => [drill, ...(alternates ?? [])]);
      return [
        ...drills.flatMap((id) => book.drills[id]?.equipment ?? []),
        ...(item.do === 'checks' ? checksOf(book, item.area) : []).flatMap((one) => one.equipment),
      ];
    }),
  );
  return Object.values(book.equipment).filter(
    ({ id, orElse }) => needed.has(id) && orElse === undefined,
  );
}
