import { useEffect, useState } from 'react';
import type { Seat } from '../seat';
import { Shape } from '../Shape';
import { useSeat } from '../useSeat';
import { OneOf } from '../forms/OneOf';

/** The name of a language as the gate says it: "Spanish". */
const nameOf = (language: string): string =>
  new Intl.DisplayNames(['en'], { type: 'language' }).of(language) ?? language;

/** The name as those who speak it write it: "Español". */
function ownNameOf(language: string): string {
  const name = new Intl.DisplayNames([language], { type: 'language' }).of(language) ?? language;
  return name.charAt(0).toLocaleUpperCase(language) + name.slice(1);
}

/** The language of the cues, and which ear and which voice there are for it. */
export function Language({ seat }: { seat: Seat }) {
  const { chosen, all, isHeard, notFetched } = useSeat(seat, (state) => state.language);
  const routines = useSeat(seat, (state) => state.routines);
  return (
    <fieldset className="card language">
      <legend>Language</legend>
      <OneOf
        options={all}
        chosen={chosen}
        onChange={(language) => seat.chooseLanguage(language)}
        words={(language) => <span lang={language}>{ownNameOf(language)}</span>}
      />
      {notFetched !== null && (
        <p role="alert" className="trouble">
          <Shape name="notice" /> {nameOf(notFetched)} could not be fetched. Check the connection,
          then choose it again.
        </p>
      )}
      {!isHeard && (
        <>
          <p>
            In {nameOf(chosen)} there is:{' '}
            <span lang={chosen}>{routines.map(({ name }) => name).join(', ')}</span>.
          </p>
          <p>
            <Shape name="ear" /> The recogniser on this device hears English only. Answer in{' '}
            {nameOf(chosen)} by typed words, or by touch, keys and pedal. “Begin by touch” is the
            way in, and the microphone stays off.
          </p>
          <DeviceVoice seat={seat} language={nameOf(chosen)} />
        </>
      )}
    </fieldset>
  );
}

/** Voices have been seen to arrive 2 to 3 s after loading. */
const VOICES_WAIT_MS = 3000;

/** Sayso's own voice speaks English alone, so another language needs one of the device. */
function DeviceVoice({ seat, language }: { seat: Seat; language: string }) {
  const { device, speaks } = useSeat(seat, (state) => state.voices);
  const [hasWaited, setHasWaited] = useState(false);
  useEffect(() => {
    const timer = window.setTimeout(() => setHasWaited(true), VOICES_WAIT_MS);
    return () => window.clearTimeout(timer);
  }, []);
  const voice = device.find(({ id }) => id === speaks) ?? device[0];
  const isMissing = voice === undefined && hasWaited;
  return (
    <p role="status" className={isMissing ? 'trouble' : ''}>
      <Shape name={isMissing ? 'notice' : 'voice'} />{' '}
      {voice !== undefined
        ? `${voice.name} speaks, a voice of this device.`
        : isMissing
          ? `This device has no ${language} voice, so every cue is shown in large type, and each count is a tone. Voices can be added in the settings of the device.`
          : `Looking for a ${language} voice on this device.`}
    </p>
  );
}
