import type {
  Acknowledgement,
  ColorComparison,
  ColorReference,
  JobMeter,
  JobPhoto,
  JobPlace,
  KnownLength,
  NamedConductor,
  Reading,
  SeenConductor,
  SiteKnowledge,
  Turnover,
  UserWord,
} from '../../flow';

/** Everything a user can change in a job. Each is one step of undo. */
export type Edit =
  | { readonly type: 'title'; readonly title: string }
  | { readonly type: 'by'; readonly by: string }
  | { readonly type: 'site'; readonly site: SiteKnowledge }
  | { readonly type: 'meter'; readonly meter: JobMeter }
  | { readonly type: 'place'; readonly place: JobPlace }
  | { readonly type: 'turnover'; readonly turnover: Turnover }
  | { readonly type: 'acknowledge'; readonly acknowledgement: Acknowledgement }
  | { readonly type: 'withdraw'; readonly step: string }
  /** The supply is on again: what was confirmed about its being off no longer holds. */
  | { readonly type: 'supply back' }
  /** `turnover`: with where it was taken, in the same step. */
  | { readonly type: 'add photo'; readonly photo: JobPhoto; readonly turnover?: Turnover }
  | { readonly type: 'remove photo'; readonly photo: string }
  | { readonly type: 'note'; readonly photo: string; readonly note: string }
  | {
      /** Traced, split, joined or discarded: some leave the list, others enter at the place of the first that left. */
      readonly type: 'conductors';
      readonly photo: string;
      readonly removed: readonly string[];
      readonly added: readonly NamedConductor[];
    }
  | {
      readonly type: 'reread';
      readonly photo: string;
      readonly references: readonly ColorReference[];
      readonly conductors: readonly NamedConductor[];
    }
  | {
      readonly type: 'word';
      readonly photo: string;
      readonly conductor: string;
      /** Null takes the user's word back. */
      readonly word: UserWord | null;
    }
  | {
      /** The conductor `of` is the one seen on another photo; `conductor` null: it is not on that photo after all. */
      readonly type: 'same conductor';
      readonly of: SeenConductor;
      readonly on: { readonly photo: string; readonly conductor: string | null };
      readonly by: string;
    }
  /** A length pointed out; null takes it back. */
  | { readonly type: 'scale'; readonly photo: string; readonly scale: KnownLength | null }
  | { readonly type: 'compared'; readonly photo: string; readonly comparison: ColorComparison }
  | { readonly type: 'reading'; readonly photo: string; readonly reading: Reading }
  | { readonly type: 'take back'; readonly photo: string; readonly reading: string; readonly by: string };
