import type { ColorName } from '../../flow';
import { PAINTS } from './hatch';

/** A short length of insulation in its hatch, with its stripe if it has one. Decoration: the words stand beside it. */
export function Swatch({ name, stripe }: { readonly name: ColorName; readonly stripe?: ColorName | undefined }) {
  return (
    <svg className="swatch" viewBox="0 0 40 18" preserveAspectRatio="none" aria-hidden="true">
      <rect width="40" height="18" fill={`url(#hatch-${name})`} />
      {stripe && <rect y="6" width="40" height="6" fill={PAINTS[stripe].fill} stroke={PAINTS[name].ink} />}
    </svg>
  );
}
