/**
 * Everything that can happen in a session. Journals, hand-written session files and the prompt all come down to these.
 * Ids are those of the circuit, exactly as its file spells them.
 */
import type { PartId, PointId } from '../circuit/circuit.js';
import type { Judgement, LaterJudgement } from './judgement.js';

/** A number as it was typed: value and the unit of its last digit, both in volts, ohms or amperes ("12" is 12 ± 1). */
export interface Typed {
  readonly value: number;
  readonly step: number;
}

/** How a load was seen or heard. */
export type Sight =
  | 'lit'
  | 'dim'
  | 'off'
  | 'flickers'
  | 'runs'
  | 'slow'
  | 'stopped'
  | 'sounds'
  | 'weak'
  | 'silent'
  | 'clicks'
  | 'chatters'
  | 'flashes'
  | 'flashes fast'
  | 'hot'
  | 'lukewarm'
  | 'cold'
  | 'works'
  | 'dead';

export type Look = 'good' | 'blown' | 'broken' | 'burnt' | 'corroded' | 'loose' | 'wet' | 'wrong part';

export type Reading =
  /** Red minus black. Mode left out = the usual high-impedance meter. */
  | {
      readonly kind: 'volts';
      readonly red: PointId;
      readonly black: PointId;
      readonly value: Typed;
      readonly mode?: VoltsMode;
    }
  | { readonly kind: 'ohms'; readonly red: PointId; readonly black: PointId; readonly value: Typed | 'OL' }
  | {
      readonly kind: 'continuity';
      readonly red: PointId;
      readonly black: PointId;
      readonly value: 'beep' | 'no beep';
    }
  /** In-line ammeter opened into this wire, terminal contact or connector pin. Magnitude. */
  | { readonly kind: 'amps'; readonly at: string; readonly value: Typed }
  /** Clamp meter around this wire, terminal contact or connector pin; nothing is opened. Magnitude. */
  | { readonly kind: 'clamp'; readonly at: string; readonly value: Typed }
  | { readonly kind: 'load'; readonly load: string; readonly value: Sight }
  /** The test lamp that hangs in place of a fuse (see SetUp.lamps). */
  | { readonly kind: 'fuse lamp'; readonly part: PartId; readonly value: 'lit' | 'dim' | 'off' }
  /** What a module reports of one of its inputs: a word of the circuit file, volts, or nothing at all. */
  | {
      readonly kind: 'scan';
      readonly module: PartId;
      readonly input: string;
      readonly value: string | Typed | 'no answer';
    }
  /** Test lamp clipped to `black`, tip on `red`. */
  | {
      readonly kind: 'test lamp';
      readonly red: PointId;
      readonly black: PointId;
      readonly value: 'lit' | 'dim' | 'off';
      readonly lamp: 'filament' | 'LED';
    }
  /** How a part, wire or contact looks: ranks, never rules out. */
  | { readonly kind: 'look'; readonly at: string; readonly value: Look };

/** How a voltmeter is used that does not just look on: `loaded` = with a filament test lamp across the same two points. */
export type VoltsMode = 'low impedance' | 'loaded';

export type Action =
  | { readonly do: 'operate'; readonly control: string; readonly position: string }
  | { readonly do: 'engine'; readonly state: 'off' | 'running' }
  | { readonly do: 'unplug' | 'plug'; readonly connector: PartId }
  | { readonly do: 'take out' | 'refit' | 'fit new'; readonly part: PartId }
  /** The two items change places; the joints stay. Only like for like. */
  | { readonly do: 'swap'; readonly parts: readonly [PartId, PartId] }
  /** An item known to be good in place of the own one, which is kept: `refit` puts it back. */
  | { readonly do: 'fit known-good'; readonly part: PartId }
  /** A test lamp in place of a fuse: it limits the current that a short would draw. */
  | { readonly do: 'lamp in place' | 'remove lamp'; readonly part: PartId }
  /** Everything off and left alone for so many minutes. */
  | { readonly do: 'wait'; readonly minutes: number }
  /** A circuit breaker or a latched module output is reset. */
  | { readonly do: 'reset'; readonly part: PartId }
  | { readonly do: 'jumper' | 'remove jumper'; readonly between: readonly [PointId, PointId] }
  /** `at`: a part, wire or point. */
  | { readonly do: 'clean' | 'tighten' | 'reseat' | 'wiggle'; readonly at: string }
  /** A repair in the user's words, with what it cost. `at`: a part, wire or point. */
  | {
      readonly do: 'repair';
      readonly at: string;
      readonly how: string;
      readonly minutes?: number;
      readonly price?: number;
    };

export interface Concern {
  /** What the customer says, in the customer's words. */
  readonly complaint?: string;
  readonly vehicle?: string;
  readonly odometer?: string;
  readonly technician?: string;
  readonly customer?: string;
  /** Answers to the history questions: recent work, tow bar, water, collision, sudden or gradual. */
  readonly history?: readonly string[];
  readonly meter?: string;
}

/** What has to be shown to work before its zeros count: a meter mode with its leads, the clamp, the scan tool. */
export type MeterMode = 'volts' | 'ohms' | 'test lamp' | 'amps' | 'clamp' | 'scan';

export type SkipReason = 'cannot tell' | 'cannot reach' | 'no tool';

export type Event =
  | {
      readonly type: 'opened';
      readonly format: 1;
      readonly program: string;
      readonly circuit: { readonly id: string; readonly hash: string; readonly file: string };
    }
  | { readonly type: 'concern'; readonly concern: Concern }
  | { readonly type: 'did'; readonly action: Action; readonly before?: number }
  | {
      readonly type: 'found';
      readonly reading: Reading;
      /** Battery volts at the posts, typed beside the reading. */
      readonly battery?: Typed;
      /** Was the complaint there while this was observed? Left out = as for the finding before it (first: present). */
      readonly symptom?: 'present' | 'absent';
      /** Left out = measured for meters, seen for loads. `told` = somebody said so. */
      readonly evidence?: 'measured' | 'seen' | 'told';
      /** Control positions of this finding alone, where they differ from the standing set-up; `engine` may stand here too. */
      readonly when?: readonly (readonly [control: string, position: string])[];
      /** Observed before that event (its number), typed later. */
      readonly before?: number;
    }
  /** From here on the complaint was there, or was not, until a finding or another event says otherwise. */
  | { readonly type: 'symptom'; readonly symptom: 'present' | 'absent' }
  /** The meter, mode and leads were shown to work on a known-live point (or shorted leads for ohms). */
  | { readonly type: 'proved'; readonly mode: MeterMode }
  | { readonly type: 'assumed'; readonly part: string }
  | { readonly type: 'noted'; readonly text: string }
  /** The drawing was corrected in mid-session; the findings stay. */
  | {
      readonly type: 'redrawn';
      readonly circuit: { readonly id: string; readonly hash: string; readonly file: string };
      readonly words: string;
    }
  /** A suggested test that was not done. `test` is the suggestion's line. */
  | { readonly type: 'skipped'; readonly test: string; readonly why: SkipReason }
  /** The event of that number counts no more. */
  | { readonly type: 'undone'; readonly number: number }
  /** The person names the cause: a part, wire or point, in words. */
  | { readonly type: 'concluded'; readonly at: string; readonly words: string }
  | { readonly type: 'paused' }
  | { readonly type: 'closed' }
  | ExerciseEvent;

/** What only happens in an exercise. None of it says anything about the vehicle, so none changes a verdict. */
export type ExerciseEvent =
  /** The session is an attempt at an exercise. `file` is empty where it was drawn: then circuit, seed and level give it again. */
  | {
      readonly type: 'exercise';
      readonly id: string;
      /** SHA-256 of what the exercise says, sealed or not. */
      readonly hash: string;
      readonly attempt: number;
      readonly file: string;
      readonly student?: string;
      readonly drawn?: { readonly seed: number; readonly difficulty: number };
    }
  /** What the next reading is expected to be, before it is taken. */
  | { readonly type: 'predicted'; readonly words: string }
  /** The readings so far are said to clear this part, wire or point; of one kind of fault, or of all. */
  | { readonly type: 'claimed'; readonly at: string; readonly of: string }
  /** The hint of that number was asked for. */
  | { readonly type: 'hinted'; readonly number: number }
  /** A reading that was tried and not to be had: a live line, or a line that nobody may probe. Its value is a blank. */
  | { readonly type: 'attempted'; readonly reading: Reading; readonly why: AttemptFailed };

export type AttemptFailed = 'live line' | 'never to be probed' | 'airbag line' | 'module output';

/** An event as it stands in a journal. */
export interface Recorded {
  /** 1, 2, 3 … in the order written. */
  readonly number: number;
  /** ISO 8601 with offset or Z; empty in hand-written sessions. */
  readonly at: string;
  readonly event: Event;
  /** What was concluded when this was recorded, for a later replay to compare with; nothing is reasoned from it. */
  readonly judged?: Judgement | LaterJudgement;
}
