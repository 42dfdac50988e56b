import { Component, type ReactNode } from 'react';
import { Problem } from '../../flow';
import { t } from '../text/t';
import { ProblemNote } from './problem-note';

interface FaultState {
  readonly problem: Problem | null;
}

/** A fault of this program on one screen ends that screen only; the job is kept and can be opened again. */
export class FaultBoundary extends Component<{ readonly children: ReactNode }, FaultState> {
  override readonly state: FaultState = { problem: null };

  static getDerivedStateFromError(error: unknown): FaultState {
    return { problem: new Problem('engine failed', undefined, error) };
  }

  override render(): ReactNode {
    const { problem } = this.state;
    if (!problem) return this.props.children;
    return (
      <main className="page-wait">
        <ProblemNote problem={problem}>
          <button type="button" className="key main" onClick={() => location.reload()}>
            {t('screen.fault.reload')}
          </button>
        </ProblemNote>
      </main>
    );
  }
}
