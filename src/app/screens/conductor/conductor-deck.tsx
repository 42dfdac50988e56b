import { Link, useLocation } from 'wouter';
import { Icon } from '../../parts/icon';
import { ToolKey } from '../../parts/tool-key';
import { to } from '../../routes';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';

/** From conductor to conductor with the thumb, back one edit, and on to the meter. */
export function ConductorDeck({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const [, navigate] = useLocation();
  const { canUndo, undo } = useOpenJob();
  const ids = view.conductors.map((c) => c.id);
  const at = ids.indexOf(bench.selected ?? '');
  const go = (by: number): void => {
    const next = ids[(at + by + ids.length) % ids.length];
    if (next) navigate(to.conductor(bench.job.id, bench.photo.id, next), { replace: true });
  };
  return (
    <div className="deck-row">
      <ToolKey icon="back" label={t('screen.conductor.previous')} disabled={ids.length < 2} onPress={() => go(-1)} />
      <ToolKey icon="open" label={t('screen.conductor.following')} disabled={ids.length < 2} onPress={() => go(1)} />
      <ToolKey icon="undo" label={t('screen.undo')} disabled={!canUndo} onPress={undo} />
      <Link className="key main" href={to.meter(bench.job.id, bench.photo.id)}>
        <Icon name="meter" />
        {t('screen.conductor.measure-key')}
      </Link>
    </div>
  );
}
