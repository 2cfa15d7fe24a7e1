import type { CueBook } from '../../domain/script';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import type { Told } from '../view';
import { AREA_WORDS, nameOf } from '../words';
import { HandOver } from './HandOver';

type End = Told<'end'>;

/** What is done until the next visit: each drill with its dose, load, needs and caution. */
export const HomeworkCard = ({
  seat,
  book,
  end: { homework, noHomework, reportedBy },
  mayHandOver,
}: {
  seat: Seat;
  book: CueBook;
  end: End;
  /** Its log is read, and somebody real was tested. */
  mayHandOver: boolean;
}) => (
  <section className="card" aria-labelledby="homework-title">
    <h2 id="homework-title">Homework</h2>
    {homework.length + noHomework.length === 0 && <p>None from this session.</p>}
    {homework.map((task) => (
      <Task key={task.area} book={book} task={task} />
    ))}
    {mayHandOver && homework.length > 0 && reportedBy === 'coach' && (
      <HandOver seat={seat} book={book} homework={homework} />
    )}
    {noHomework.map(({ area, because }) => (
      <p key={area}>{because}</p>
    ))}
  </section>
);

const Task = ({ book, task }: { book: CueBook; task: End['homework'][number] }) => (
  <article className="task" aria-labelledby={`homework-${task.area}`}>
    <h3 id={`homework-${task.area}`}>
      {AREA_WORDS[task.area]}: {nameOf(book, task.drill)}
    </h3>
    <p className="dose">{task.dose}</p>
    {task.loadNote !== null && <p>Made easier: {task.loadNote}</p>}
    <p>{task.loadGuidance}</p>
    {task.coachNote !== null && <p>{task.coachNote}</p>}
    <dl className="needs">
      {task.equipment.length > 0 && <Need title="Needs" things={task.equipment} />}
      {task.instead.length > 0 && <Need title="Or use" things={task.instead} />}
    </dl>
    <p className="task-caution">
      <Shape name="notice" /> <span>{task.caution}</span>
    </p>
    <p className="detail">
      {task.because} Rule {task.rule}.
    </p>
  </article>
);

const Need = ({ title, things }: { title: string; things: string[] }) => (
  <>
    <dt>{title}</dt>
    <dd>{things.join('; ')}</dd>
  </>
);
