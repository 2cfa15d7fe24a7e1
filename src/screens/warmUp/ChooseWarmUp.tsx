import { useId, useState } from 'react';
import { PEOPLE, stationCards } from '../../domain/warmUp/equipping';
import { Back } from '../Back';
import { OneOf } from '../forms/OneOf';
import { TextField } from '../forms/TextField';
import { Trouble } from '../forms/Trouble';
import { BeginButtons } from '../gate/BeginButtons';
import { Hearing } from '../gate/Hearing';
import { Sound } from '../gate/Sound';
import type { Seat } from '../seat';
import { useFocusOnArrival } from '../useFocusOnArrival';
import { useSeat } from '../useSeat';
import { Needs } from './Needs';
import { NoneHere } from './NoneHere';
import { OfOne } from './OfOne';
import { SaveSound } from './SaveSound';
import { StationCards } from './StationCards';
import type { WarmUpOffer } from './state';
import { capitalised, minutesFrom, minutesOf, peopleFrom } from './words';

const NONE: WarmUpOffer[] = [];

/** Before a warm-up: which, for how many, until when, and what is said to the group. */
export function ChooseWarmUp({ seat }: { seat: Seat }) {
  const book = useSeat(seat, (state) => state.book);
  const offers = useSeat(seat, (state) => state.warmUp?.offers ?? NONE);
  const trouble = useSeat(seat, (state) => state.warmUp?.trouble ?? null);
  const told = useSeat(seat, (state) => state.warmUp?.told ?? null);
  const first = useSeat(seat, (state) => state.warmUp?.wanted ?? null);
  const isHeard = useSeat(seat, (state) => state.language.isHeard);
  const [wanted, setWanted] = useState<string | null>(null);
  const [people, setPeople] = useState('12');
  const [minutes, setMinutes] = useState('');
  const agreed = useId();
  const heading = useFocusOnArrival<HTMLHeadingElement>();
  const chosen = offers.find(({ id }) => id === (wanted ?? first)) ?? offers[0];
  const group = peopleFrom(people, PEOPLE);
  const end = minutesFrom(minutes, chosen ?? { leastSeconds: 0, mostSeconds: 0 });
  const size = 'people' in group ? group.people : PEOPLE.least;
  const cards = chosen === undefined ? [] : stationCards(book, chosen.warmUp, size);
  const header = (
    <header>
      <Back onClick={() => seat.warmUp.leave()} />
      <h1 ref={heading} tabIndex={-1}>
        Group warm-up
      </h1>
      <p className="lead">
        One speaker leads everybody. It plays by itself; nobody has to answer. Nobody is named, and
        nothing of a group is kept.
      </p>
    </header>
  );
  if (Object.keys(book.warmUps).length === 0)
    return (
      <main className="page gate warm-up" lang="en">
        {header}
        <NoneHere seat={seat} />
      </main>
    );
  return (
    <main className="page gate warm-up" lang="en">
      {header}
      <Trouble words={trouble} />
      <p role="status" className="told">
        {told}
      </p>
      <fieldset className="card">
        <legend>Which</legend>
        <OneOf
          options={offers.map(({ id }) => id)}
          chosen={chosen?.id ?? ''}
          onChange={setWanted}
          words={(id) => {
            const offer = offers.find((each) => each.id === id);
            return `${capitalised(offer?.name ?? id)}, ${minutesOf(offer?.seconds ?? 0)}${offer?.isOwn ? ', your own' : ''}`;
          }}
        />
        {chosen !== undefined && <OfOne key={chosen.id} {...{ seat, chosen }} />}
        <TextField
          label="People in the group"
          value={people}
          inputMode="numeric"
          onChange={setPeople}
          wrong={'wrong' in group ? group.wrong : null}
        />
        <TextField
          label="It ends after (minutes)"
          value={minutes}
          inputMode="numeric"
          onChange={setMinutes}
          wrong={'wrong' in end ? end.wrong : null}
          hint="Empty: as written. A shorter one has less work and fewer rounds; every caution is said."
        />
        {chosen !== undefined && <Needs {...{ book, warmUp: chosen.warmUp }} people={size} />}
      </fieldset>
      <section className="card cautions" aria-labelledby="warm-up-cautions">
        <h2 id="warm-up-cautions">Before a group begins</h2>
        <ul>
          <li>
            Ask about pain, injury, surgery, pregnancy, and heart or blood-pressure history. A
            licensed professional decides about those. Sayso is not medical advice.
          </li>
          <li>Whoever has pain stops, and tells the leader. Nobody works through it.</li>
          <li>Under 18: consent and supervision as your local rules say.</li>
          <li>
            “Stop” works at any moment, spoken, tapped or with Escape. A warning sign such as chest
            pain or dizziness ends the warm-up.
          </li>
        </ul>
      </section>
      {cards.length > 0 && <StationCards cards={cards} lang={book.language} />}
      {chosen !== undefined && (
        <SaveSound
          {...{ seat, chosen }}
          minutes={'wrong' in end ? null : end.minutes}
          isDisabled={'wrong' in end}
        />
      )}
      <div className="settings">
        {isHeard && <Hearing seat={seat} />}
        <Sound seat={seat} />
      </div>
      <div className="begin">
        <p id={agreed}>They were asked about pain and health, and have heard the cautions.</p>
        <BeginButtons
          {...{ seat, agreed }}
          they="They agree"
          isDisabled={chosen === undefined || 'wrong' in end || 'wrong' in group}
          begin={(listen) => {
            if (chosen === undefined || 'wrong' in end) return;
            seat.warmUp.begin({ id: chosen.id, minutes: end.minutes, listen });
          }}
        />
      </div>
    </main>
  );
}
