import type { MeterPlan } from '../../../flow';
import { ConductorHead } from '../../parts/conductor-head';
import { ConductorRow } from '../../parts/conductor-row';
import type { PhotoView } from '../../state/use-photo-view';
import { roleWord } from '../../text/names';
import { t } from '../../text/t';

interface CoverageTableProps {
  readonly view: PhotoView;
  /** Ids of the checks each conductor needs; null while they are being worked out. */
  readonly required: MeterPlan['required'] | null;
}

/** How far each conductor is proved and how many of its checks are in. */
export function CoverageTable({ view, required: needs }: CoverageTableProps) {
  return (
    <section aria-labelledby="coverage">
      <h2 id="coverage">{t('screen.meter.coverage')}</h2>
      <table className="conductors">
        <ConductorHead says="screen.col.claim" />
        <tbody>
          {view.conductors.map((c) => {
            const required = needs?.[c.id]?.length ?? 0;
            const missing = view.verdictOf(c.id)?.missing.length ?? 0;
            const role = view.roleOf(c.id);
            return (
              <ConductorRow key={c.id} label={view.labelOf(c.id)} standing={view.standingOf(c.id)}>
                <b>{role ? roleWord(role.role) : t('screen.photo.no-role')}</b>
                <small>
                  {required > 0 && t('screen.meter.covered', { done: Math.max(0, required - missing), required })}
                  {needs && required === 0 && t('screen.meter.unprovable')}
                </small>
              </ConductorRow>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
