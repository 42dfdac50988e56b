import type { Job } from '../../../flow';
import type { TurnoverWork } from '../../state/use-turnover';

export interface PartProps {
  readonly job: Job;
  readonly work: TurnoverWork;
}
