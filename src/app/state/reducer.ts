import type { Job } from '../../flow';
import { applyEdit } from './apply-edit';
import type { Edit } from './edit';
import { begin, type History, redo, step, undo } from './history';
import { type Mapped, withMap } from './with-map';

export type JobAction =
  | { readonly type: 'open'; readonly job: Job }
  | { readonly type: 'close' }
  | { readonly type: 'undo' }
  | { readonly type: 'redo' }
  | { readonly type: 'edit'; readonly edit: Edit; readonly at: string }
  | { readonly type: 'mapped'; readonly mapped: Mapped };

export type JobState = History<Job> | null;

/** The one reducer of the app: the open job with its undo history. Edits without an open job are ignored. */
export function jobReducer(state: JobState, action: JobAction): JobState {
  if (action.type === 'open') return begin(action.job);
  if (!state) return null;
  switch (action.type) {
    case 'close':
      return null;
    case 'undo':
      return undo(state);
    case 'redo':
      return redo(state);
    case 'edit':
      return step(state, applyEdit(state.present, action.edit, action.at));
    case 'mapped':
      return { ...state, present: withMap(state.present, action.mapped) };
  }
}
