import { HelpHeading } from '../../parts/help-heading';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { PhaseBoard } from './board';
import { FindingList } from './finding-list';
import { PanelDrawing } from './panel-drawing';
import { RoleTable } from './role-table';
import { SiteForm } from './site-form';
import { SystemList } from './system-list';

/** Which conductor is probably what, what is ruled out, and what breaks a rule. */
export function MapScreen({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const { map } = view;
  return (
    <div className="stack">
      <HelpHeading on="map">
        {t(bench.photo.readings.length > 0 ? 'screen.map.title-metered' : 'screen.map.title')}
      </HelpHeading>
      <SystemList map={map} labelOf={view.labelOf} />
      <PhaseBoard bench={bench} view={view} />
      <RoleTable bench={bench} view={view} />
      <FindingList findings={map.findings} labelOf={view.labelOf} />
      <PanelDrawing bench={bench} view={view} />
      <SiteForm bench={bench} view={view} />
    </div>
  );
}
