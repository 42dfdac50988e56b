import type { ColorName, Role, SystemId } from '../flow';
import type { Jurisdiction, SourceStatus } from './system';

/** What binds an electrician to a color. */
export type Force =
  | { readonly kind: 'code rule'; readonly section: string; readonly edition: string }
  | { readonly kind: 'common practice' }
  | { readonly kind: 'local'; readonly place: string };

/**
 * The stripe a convention asks for: one color, or `distinctive`, which is any color except white, gray and green
 * (NEC 517.160(A)(5), 2017). Absent means plain insulation.
 */
export type StripeRule = ColorName | 'distinctive';

/** One way a conductor of a role may look under a convention. `bare` means no insulation. */
export interface Look {
  readonly color: ColorName | 'bare';
  readonly stripe?: StripeRule;
}

/**
 * Which set of habits a line belongs to. `habit` is what most sites do; the others stand beside it and are weighed
 * in `model/priors`.
 */
export type Scheme =
  | 'habit'
  | 'cable work'
  | 'violet for B'
  | 'red for C'
  | 'red high leg'
  | 'without stripes'
  | 'no order'
  | 'local A red';

/** One line of a color convention: this role of this system looks like one of `looks`. */
export interface Convention {
  readonly id: string;
  readonly jurisdiction: Jurisdiction;
  readonly system: SystemId;
  readonly scheme: Scheme;
  readonly role: Role;
  /** Most usual first unless `anyOf` is true. */
  readonly looks: readonly Look[];
  /** All looks are equally usual. */
  readonly anyOf: boolean;
  readonly force: Force;
  readonly source: string;
  readonly status: SourceStatus;
}
