import { type Message, message } from '../../flow';
import type { Comparison } from '../naming/compare';

/** log10 of the likelihood ratio from which one side is told at all, and from which it is told strongly. Assumed. */
const TOLD = 0.5;
const STRONG = 1.5;
/** No ratio larger than this is told: what the model does not know (ageing, dye lots, local casts) is not rarer. Assumed. */
const AT_MOST = 100;

/**
 * "Is this the same color as that?" in words. Says how many times better one answer explains both readings than the
 * other, at most 100 times, and that the photo cannot tell where the ratio is small.
 */
export function judgeComparison({ log10Ratio }: Pick<Comparison, 'log10Ratio'>): Message {
  const times = Math.min(AT_MOST, Math.round(10 ** Math.abs(log10Ratio)));
  if (Math.abs(log10Ratio) < TOLD) return message('color.compare.open');
  const side = log10Ratio > 0 ? 'same' : 'other';
  return message(`color.compare.${side}${Math.abs(log10Ratio) >= STRONG ? '-strong' : ''}`, { times });
}
