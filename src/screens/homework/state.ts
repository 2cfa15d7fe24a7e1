import type { Area } from '../../domain/areas';
import type { Handover } from '../../domain/handover/handover';
import type { HomeworkDay } from '../../domain/handover/progressDay';
import type { DrillId, EquipmentId } from '../../domain/script';
import type { Became } from '../record/state';
import type { BeginChoice } from '../seat';
import type { Told } from '../view';

/** A QR code to be drawn in black on white: squares a side, with the white around it. */
export interface DrawnCode {
  size: number;
  /** Of an SVG, a unit a square. */
  path: string;
}

/** Something on its way to somebody else. */
export interface Travels {
  /** Null where it would be too long for a link. */
  link: string | null;
  /** Of the link; null where it would be too long for a phone to read. */
  code: DrawnCode | null;
  /** Name of the file that is saved. */
  file: string;
  /** The device offers to hand it on. */
  canShare: boolean;
  /** Of what came of homework: how many sessions are in each; null of homework. */
  sessions: { all: number; inLink: number; inCode: number } | null;
}

/** Homework that this device keeps. */
export interface KeptHomework {
  handover: Handover;
  /** Its sessions that are in the record and ended, oldest first. */
  done: { session: string; startedAt: string }[];
  /** What is to be done now; null until that is known. */
  today: HomeworkDay | null;
}

/** A session as it came back, for the coach to look at before it is taken. */
export interface CameBack {
  session: string;
  startedAt: string;
  areas: Area[];
  /** It is in the record of this device already, all of it. */
  isHere: boolean;
}

/** What the homework's screen shows. */
export type HomeworkStage =
  /** A link, code or file is to be opened. */
  | { at: 'opening' }
  | { at: 'reading' }
  /** Why it was not taken, and what to do. */
  | { at: 'refused'; say: string }
  /** It is in another language of the page. */
  | { at: 'otherLanguage'; language: string }
  /** Homework, before it is begun. */
  | { at: 'homework'; homework: KeptHomework; isKept: boolean }
  /** Straight after a session; null where nothing was told of its end. */
  | { at: 'done'; homework: KeptHomework; end: Told<'end'> | null }
  /** What came back; `person`: whose homework it was, by id, or null where that is not known. */
  | { at: 'report'; sessions: CameBack[]; person: string | null }
  /** It is in the record now. */
  | { at: 'joined'; added: number; person: string | null };

export interface HomeworkState {
  stage: HomeworkStage;
  /** Newest first. */
  kept: KeptHomework[];
  /** A link was opened while a session or the like was under way: it waits. */
  waits: boolean;
}

/** What a person may do with homework. `say` and what is not null: why not, and what to do. */
export interface HomeworkHands {
  /** To where a link, code or file is opened. */
  show(): void;
  /** Opens the link that waits. */
  openWaiting(): void;
  openText(text: string): void;
  openFile(file: Blob): void;
  openKept(id: string): void;
  /** Begins the homework that is shown, from a tap; it is kept from then on. */
  begin(listen: BeginChoice['listen']): void;
  /** What is not where they are: what is to be done now is worked out anew. */
  notThere(missing: EquipmentId[]): void;
  /** Forgets the homework of that id; what was done stays in the record. */
  remove(id: string): void;
  /** What came of the homework that is shown, for its coach. */
  sendBack(): Promise<Became<Travels>>;
  /** What the session that is shown hands over; nobody's name goes along. */
  handOver(allowed: DrillId[]): Promise<Became<Travels>>;
  /** Of what was made last to travel. */
  saveFile(): Promise<string | null>;
  copyLink(): Promise<string | null>;
  share(): Promise<string | null>;
  /** Takes what came back into the record, as sessions of this person or of nobody named. */
  join(person: string | null): Promise<string | null>;
  leave(): void;
}
