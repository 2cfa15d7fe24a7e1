import type { HomeworkDay } from '../../domain/handover/progressDay';
import { leftSentence, taskSentence } from '../../domain/handover/progressWords';
import { doseText } from '../../domain/reporting/homework';
import type { CueBook } from '../../domain/script';
import { Shape } from '../Shape';
import { AREA_WORDS, nameOf } from '../words';

/** What is to be done now, a drill an area; `day` is null where it cannot be told here. */
export const Today = ({ book, day }: { book: CueBook; day: HomeworkDay | null }) => (
  <section className="card" aria-labelledby="today-title">
    <h2 id="today-title">Today</h2>
    {day === null && (
      <p>
        This homework does not fit the drills of this page any more. Ask your coach for it anew.
      </p>
    )}
    {day?.tasks.map((task) => {
      const script = book.drills[task.drill];
      if (script === undefined) return null;
      return (
        <article key={task.area} className="task" aria-labelledby={`today-${task.area}`}>
          <h3 id={`today-${task.area}`}>
            {AREA_WORDS[task.area]}: {nameOf(book, task.drill)}
          </h3>
          <p className="dose" lang={book.language}>
            {doseText(book, script)}
          </p>
          <p lang={book.language}>{taskSentence(book, task)}</p>
          {task.load !== 'as-written' && script.easier !== null && (
            <p lang={book.language}>Made easier: {script.easier.cue}</p>
          )}
          <p lang={book.language}>{script.loadGuidance}</p>
          <p className="task-caution">
            <Shape name="notice" /> <span lang={book.language}>{script.caution}</span>
          </p>
        </article>
      );
    })}
    {day?.left.map((left) => (
      <p key={left.area} lang={book.language}>
        <Shape name="notice" /> {leftSentence(book, left)}
      </p>
    ))}
  </section>
);
