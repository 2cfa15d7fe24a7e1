import type { StationCard } from '../../domain/warmUp/equipping';

/** One card for each station, to be printed and laid there. */
export const StationCards = ({ cards, lang }: { cards: StationCard[]; lang: string }) => (
  <section className="station-cards" aria-labelledby="cards-title">
    <h2 id="cards-title">Station cards</h2>
    <button type="button" className="no-print" onClick={() => window.print()}>
      Print a card for each station
    </button>
    <ol>
      {cards.map(({ station, name, demo, good, caution, people, equipment }) => (
        <li key={`${station} ${name}`} className="card station-card">
          <h3>
            Station {station}: <span lang={lang}>{name}</span>
          </h3>
          <p lang={lang}>{demo}</p>
          {good !== demo && <p lang={lang}>{good}</p>}
          <p>
            {people} at once
            {equipment.map((thing) => (
              <span key={thing.name}>
                , {thing.count} × <span lang={lang}>{thing.name}</span>
              </span>
            ))}
            .
          </p>
          <p lang={lang} className="caution">
            {caution}
          </p>
        </li>
      ))}
    </ol>
  </section>
);
