import { message, Problem } from '../flow';
import { say } from '../words';

export const asProblem = (error: unknown): Problem =>
  error instanceof Problem ? error : new Problem('engine failed', undefined, error);

/** A problem as one line. The catalogue fills one level of blanks; a detail is itself a sentence with blanks. */
export function explain(problem: Problem): string {
  const { detail } = problem.what.values ?? {};
  const inner = typeof detail === 'string' ? say(message(detail, problem.what.values)) : '';
  if (problem.kind === 'bad argument' && inner !== '') return inner;
  const what = say(message(problem.what.code, { ...problem.what.values, ...(inner === '' ? {} : { detail: inner }) }));
  return `${what} ${say(problem.todo)}`;
}
