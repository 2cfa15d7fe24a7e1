import type { Way } from '../../domain/areas';
import { equipmentOf } from '../../domain/equipment';
import type { CueBook, Equipment, EquipmentId, RoutineId } from '../../domain/script';

/** What was chosen to be run; another routine may lack the way, or need none of that equipment. */
export interface Wanted {
  routine: RoutineId;
  way: Way;
  notHere: EquipmentId[];
}

/** What that comes to. */
export interface ToRun {
  routine: RoutineId;
  ways: Way[];
  way: Way;
  equipment: Equipment[];
  missing: EquipmentId[];
}

export const firstOf = (routines: readonly { id: RoutineId }[]): Wanted => ({
  ...{ routine: routines[0]?.id ?? '', way: 'hands-on', notHere: [] },
});

/** A way that the routine has, and of the equipment that it needs what is missing. */
export function toRunOf(book: CueBook, { routine, way, notHere }: Wanted): ToRun {
  const run = book.routines[routine];
  const equipment = run === undefined ? [] : equipmentOf(book, run);
  const ways = run?.ways ?? [way];
  return {
    ...{ routine, ways, equipment },
    way: ways.includes(way) ? way : (ways[0] ?? way),
    missing: equipment.map(({ id }) => id).filter((id) => notHere.includes(id)),
  };
}
