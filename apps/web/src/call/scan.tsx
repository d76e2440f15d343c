import { useCallback, useEffect, useRef, useState } from 'react';
import { useSay } from '../live/announcer.js';
import { Field } from '../parts/field.js';
import { readBadge } from './badge.js';
import type { Sheet } from './call.question.js';

type Person = Sheet['people'][number];

/** What browsers that read squares by themselves have; others take the code. */
interface SquareReader {
  detect: (source: HTMLVideoElement) => Promise<{ rawValue: string }[]>;
}
type SquareReaders = new (options: { formats: string[] }) => SquareReader;

const readers = (): SquareReaders | undefined =>
  (window as unknown as { BarcodeDetector?: SquareReaders }).BarcodeDetector;

const lookMillis = 300;

/** Badges: read by the camera where the browser can, else by the code that is printed on them. */
export function Scan({ people, here }: { people: Person[]; here: (person: Person) => void }) {
  const say = useSay();
  const [code, setCode] = useState('');
  const [words, setWords] = useState('');
  const [nearly, setNearly] = useState<Person | null>(null);
  const [isOn, setIsOn] = useState(false);
  const hasReader = readers() !== undefined && 'mediaDevices' in navigator;

  const take = useCallback(
    (person: Person) => {
      here(person);
      setNearly(null);
      setWords(`${person.hand.name} is here.`);
      say(`${person.hand.name} is here.`);
    },
    [here, say],
  );
  const read = useCallback(
    (keyed: string) => {
      const badge = readBadge(keyed, people);
      if (badge.kind === 'right') take(badge.person);
      else if (badge.kind === 'nearly') setNearly(badge.person);
      else setWords('No badge of this crew has that code.');
      return badge.kind === 'right';
    },
    [people, take],
  );

  return (
    <details className="fold scan">
      <summary>Badges</summary>
      {hasReader ? (
        <button
          type="button"
          className="quiet"
          onClick={() => {
            setIsOn(!isOn);
          }}
        >
          {isOn ? 'Put the camera away' : 'Read badges with the camera'}
        </button>
      ) : null}
      {isOn ? <Camera read={read} failed={setWords} /> : null}
      <form
        className="row"
        onSubmit={(event) => {
          event.preventDefault();
          if (read(code)) setCode('');
        }}
      >
        <Field
          id="badge-code"
          label="Code on the badge"
          autoCapitalize="characters"
          autoComplete="off"
          value={code}
          onChange={(event) => {
            setCode(event.target.value);
          }}
        />
        <button type="submit" className="quiet">
          Is here
        </button>
      </form>
      {nearly ? (
        <p role="status">
          One character is wrong. Is it {nearly.hand.name}, {nearly.code}?{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              take(nearly);
              setCode('');
            }}
          >
            Yes, {nearly.hand.name}
          </button>
        </p>
      ) : words ? (
        <p role="status">{words}</p>
      ) : null}
    </details>
  );
}

function Camera({ read, failed }: { read: (code: string) => boolean; failed: (words: string) => void }) {
  const video = useRef<HTMLVideoElement>(null);
  useEffect(() => {
    const Reader = readers();
    if (!Reader) return;
    const reader = new Reader({ formats: ['qr_code'] });
    let stream: MediaStream | null = null;
    let over = false;
    let timer = 0;
    let last = '';
    const look = async () => {
      if (over || !video.current) return;
      const [seen] = video.current.readyState >= 2 ? await reader.detect(video.current) : [];
      if (seen && seen.rawValue !== last) {
        last = seen.rawValue;
        read(seen.rawValue);
      }
      timer = window.setTimeout(() => void look(), lookMillis);
    };
    navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } }).then(
      (given) => {
        stream = given;
        if (over || !video.current) {
          for (const track of given.getTracks()) track.stop();
          return;
        }
        video.current.srcObject = given;
        void video.current.play();
        void look();
      },
      () => {
        failed('The camera can’t be used here. Key the code instead.');
      },
    );
    return () => {
      over = true;
      window.clearTimeout(timer);
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
  }, [read, failed]);
  return <video ref={video} muted playsInline aria-label="What the camera sees" />;
}
