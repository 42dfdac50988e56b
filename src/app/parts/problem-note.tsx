import type { ReactNode } from 'react';
import type { Problem } from '../../flow';
import { say } from '../text/say';
import { Icon } from './icon';

/** What went wrong and what to do next, read out at once. */
export function ProblemNote({ problem, children }: { readonly problem: Problem; readonly children?: ReactNode }) {
  return (
    <div className="note danger stack" role="alert">
      <p>
        <Icon name="warn" />
        <strong>{say(problem.what)}</strong>
        {say(problem.todo)}
      </p>
      {children}
    </div>
  );
}
