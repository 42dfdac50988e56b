import type {
  ColorReference,
  Conductor,
  Findings,
  Message,
  NamedConductor,
  Point,
  ProblemKind,
  SiteKnowledge,
} from '../flow';
import type { Glance } from './glance';
import type { Aim } from './passing-color';
import type { HueCheck, Stage } from './stages';

/** What the page may ask of the worker. One call at a time; the photo is the one last opened. */
export type Call =
  /** To be ready for what comes. */
  | { readonly do: 'warm up' }
  | { readonly do: 'open'; readonly bytes: ArrayBuffer; readonly name: string; readonly knowledge?: SiteKnowledge }
  | { readonly do: 'trace'; readonly at: Point }
  | { readonly do: 'traceStroke'; readonly stroke: readonly Point[] }
  | { readonly do: 'reread'; readonly references: readonly ColorReference[]; readonly conductors: readonly Conductor[] }
  | {
      readonly do: 'hue';
      readonly references: readonly ColorReference[];
      readonly conductor: Conductor;
      readonly other?: Conductor;
    }
  | { readonly do: 'ribbon'; readonly conductor: Conductor }
  | { readonly do: 'glance'; readonly frame: CameraFrame };

/** A frame of the live view: the whole of it small, its middle at working size. Whoever receives the bitmaps closes them. */
export interface CameraFrame {
  readonly whole: ImageBitmap;
  readonly detail: ImageBitmap;
  /** Size of the frame itself, pixels. */
  readonly width: number;
  readonly height: number;
  /** Where a color is asked for; the detail lies round it. Absent: nowhere. */
  readonly aim?: Aim;
}

/** A picture ready for a canvas: RGBA, 8 bits, sRGB. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/** What each call answers. */
export interface Answers {
  readonly 'warm up': null;
  readonly open: Findings;
  readonly trace: NamedConductor | null;
  readonly traceStroke: NamedConductor | null;
  readonly reread: readonly NamedConductor[];
  readonly hue: HueCheck | null;
  readonly ribbon: Picture;
  readonly glance: Glance;
}

export type Request = { readonly id: number; readonly call: Call };

export type Reply =
  /** Name of the lock that the worker holds as long as it lives; told once, at its start. */
  | { readonly life: string }
  | { readonly id: number; readonly answer: Answers[keyof Answers] }
  | { readonly id: number; readonly stage: Stage; readonly share: number }
  | { readonly id: number; readonly problem: ProblemKind; readonly values?: Message['values'] };
