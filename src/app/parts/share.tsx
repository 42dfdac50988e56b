import type { ReactNode } from 'react';
import { percent } from '../text/numbers';

/** A probability as a bar and a number. `of` is what it is the probability of. */
export function Share({ of, probability }: { readonly of: ReactNode; readonly probability: number }) {
  return (
    <div className="share">
      <span>{of}</span>
      <span className="share-value">{percent(probability)}</span>
      <span className="share-track" style={{ gridColumn: '1 / -1' }} aria-hidden="true">
        <span className="share-bar" style={{ display: 'block', width: `${Math.round(probability * 100)}%` }} />
      </span>
    </div>
  );
}
