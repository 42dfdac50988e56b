import type { NamedConductor } from '../../../flow';
import { useHueCheck } from '../../state/use-hue-check';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { Candidates } from './candidates';
import { CompareForm } from './compare-form';
import { Doubts } from './doubts';
import { SameConductor } from './same-conductor';

interface HueSectionsProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly conductor: NamedConductor;
}

/** All that is said of an insulation's color: the names, the doubt, what helps, and comparisons. */
export function HueSections({ bench, view, conductor }: HueSectionsProps) {
  const hue = useHueCheck(bench, conductor);
  return (
    <>
      <Candidates conductor={conductor} hue={hue} />
      <Doubts conductor={conductor} view={view} hue={hue} />
      <CompareForm key={`compare-${conductor.id}`} bench={bench} view={view} conductor={conductor} />
      <SameConductor key={`same-${conductor.id}`} bench={bench} conductor={conductor} />
    </>
  );
}
