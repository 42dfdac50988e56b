import type { ScreenCode } from '../text/t';
import { TableHead } from './table-head';

/** Head of every table of conductors: number, what is said of it, how far that is proved. */
export function ConductorHead({ says }: { readonly says: ScreenCode }) {
  return <TableHead columns={['screen.col.number', says, 'screen.col.standing']} />;
}
