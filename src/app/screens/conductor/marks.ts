import type { BareStretch, ColorName, NamedConductor, Stretch, Stripe } from '../../../flow';
import { colorWord } from '../../text/names';
import { percent, withSign } from '../../text/numbers';
import { t } from '../../text/t';

/** Which part of the user's word corrects a mark; null where nothing does but looking again. */
export type Correctable = 'color' | 'stripe' | 'tape' | 'metal' | null;

/** Something read along a conductor, ready to be drawn and said. */
export interface Mark {
  readonly key: string;
  readonly kind: 'tape' | 'stripe' | 'bare' | 'print' | 'cleanest';
  /** Null where nobody said where it lies. */
  readonly stretch: Stretch | null;
  /** Color it is drawn in; null for none. */
  readonly color: ColorName | null;
  readonly sentence: string;
  readonly corrects: Correctable;
}

const WHOLE: Stretch = [0, 1];
const CLOSED = 0.9;
const tenth = (v: number): string => withSign(String(Math.round(v * 10) / 10));

/** Everything read along a conductor, in order from its first end, stripes first. */
export function marksOf(conductor: NamedConductor): Mark[] {
  const { stripe, tape, along, userWord } = conductor;
  const marks: Mark[] = [];
  const saidStripe = userWord?.stripe;
  if (saidStripe)
    marks.push({
      key: 'stripe',
      kind: 'stripe',
      stretch: WHOLE,
      color: saidStripe,
      sentence: t('screen.mark.stripe-said', { color: colorWord(saidStripe) }),
      corrects: 'stripe',
    });
  else if (stripe && saidStripe === undefined)
    marks.push({
      key: 'stripe',
      kind: 'stripe',
      stretch: WHOLE,
      color: stripe.name,
      sentence: stripeSentence(stripe),
      corrects: 'stripe',
    });
  const lying: Mark[] = [];
  const diameters = along?.diameters ?? 0;
  const saidTape = userWord?.tape;
  if (saidTape && tape.length === 0)
    lying.push({
      key: 'tape',
      kind: 'tape',
      stretch: null,
      color: saidTape,
      sentence: t('screen.mark.tape-said', { color: colorWord(saidTape) }),
      corrects: 'tape',
    });
  if (saidTape !== null)
    for (const piece of tape) {
      const stretch = piece.stretch ?? WHOLE;
      const color = saidTape ?? piece.name;
      const values = {
        color: colorWord(color),
        share: percent(piece.confidence),
        length: tenth((stretch[1] - stretch[0]) * diameters),
      };
      const closed = (piece.cover ?? 0) >= CLOSED;
      lying.push({
        key: `tape-${piece.at[0]}-${piece.at[1]}`,
        kind: 'tape',
        stretch,
        color,
        sentence:
          saidTape !== undefined
            ? t('screen.mark.tape-said', { color: colorWord(color) })
            : t(closed ? 'screen.mark.tape' : 'screen.mark.tape-part', values),
        corrects: 'tape',
      });
    }
  const saidMetal = userWord?.metal ?? undefined;
  if (saidMetal && saidMetal !== 'none')
    lying.push({
      key: 'metal',
      kind: 'bare',
      stretch: along?.bare.find((piece) => piece.place === 'end')?.stretch ?? null,
      color: null,
      sentence: t('screen.mark.metal-said', { what: t(`screen.word.metal.${saidMetal}`) }),
      corrects: 'metal',
    });
  for (const piece of along?.bare ?? []) {
    if (saidMetal === 'none' || (saidMetal && piece.place === 'end')) continue;
    lying.push({
      key: `bare-${piece.stretch[0]}`,
      kind: 'bare',
      stretch: piece.stretch,
      color: null,
      sentence: t(bareCode(piece), {
        metal: t(`screen.mark.metal.${METAL_CODES[piece.metal]}`),
        length: tenth(piece.diameters),
        share: percent(piece.confidence),
      }),
      corrects: 'metal',
    });
  }
  for (const stretch of along?.print ?? [])
    lying.push({
      key: `print-${stretch[0]}`,
      kind: 'print',
      stretch,
      color: null,
      sentence: t('screen.mark.print'),
      corrects: null,
    });
  const fading = along?.fading;
  if (fading)
    lying.push({
      key: 'cleanest',
      kind: 'cleanest',
      stretch: fading.cleanest,
      color: null,
      sentence: t(`screen.mark.faded-${fading.toward}`, { share: percent(fading.left) }),
      corrects: 'color',
    });
  return [...marks, ...lying.sort((p, q) => (p.stretch?.[0] ?? 0) - (q.stretch?.[0] ?? 0))];
}

function stripeSentence({ name, confidence, layout, count, dashed }: Stripe): string {
  const values = { color: colorWord(name), share: percent(confidence) };
  const said = t(dashed ? 'screen.stripe.dashes' : `screen.stripe.${layout}`, values);
  return count ? `${said} ${t('screen.stripe.several', { count })}` : said;
}

const bareCode = ({ place, fitting }: BareStretch) => {
  if (place === 'middle') return 'screen.mark.bare-middle';
  return fitting ? 'screen.mark.bare-ferrule' : 'screen.mark.bare-end';
};

const METAL_CODES = {
  copper: 'copper',
  'tinned copper or aluminum': 'gray',
  'not decided': 'unknown',
} as const;
