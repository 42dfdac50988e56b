import type { ReactNode } from 'react';
import type { Standing } from '../../flow';
import { StandingMark } from './standing-mark';

interface ConductorRowProps {
  /** The number it goes by in the picture. */
  readonly label: string;
  readonly standing: Standing;
  readonly selected?: boolean;
  /** What the table says of it. */
  readonly children: ReactNode;
}

/** A row of a table of conductors: its number, what is said of it, how far it is proved. */
export function ConductorRow({ label, standing, selected, children }: ConductorRowProps) {
  return (
    <tr data-selected={selected}>
      <td>
        <span className="tag">{label}</span>
      </td>
      <th scope="row">{children}</th>
      <td className="standing-cell">
        <StandingMark standing={standing} />
      </td>
    </tr>
  );
}
