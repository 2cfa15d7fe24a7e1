import type { Clock, SessionEvent } from '../ports';
import { MUSIC_PLACE, musicLevelAt, musicPlaceAfter } from '../tones/givingWay';
import type { Music } from '../tones/music';

/** Follows a session's timeline, so that music gives way to what is said and asked. */
export function musicUnder(music: Pick<Music, 'level'>, clock: Clock) {
  let place = MUSIC_PLACE;
  let timer: unknown = null;
  return {
    show(event: SessionEvent & { atSeconds: number }) {
      place = musicPlaceAfter(place, event);
      music.level(musicLevelAt(place, event.atSeconds));
      clock.clearTimeout(timer);
      const wordsLeftSeconds = place.wordsUntilSeconds - event.atSeconds;
      if (wordsLeftSeconds <= 0) return;
      const over = () => music.level(musicLevelAt(place, place.wordsUntilSeconds));
      timer = clock.setTimeout(over, wordsLeftSeconds * 1000);
    },
    /** The session is left: the music is as it was. */
    leave() {
      clock.clearTimeout(timer);
      place = MUSIC_PLACE;
      music.level('full');
    },
  };
}
