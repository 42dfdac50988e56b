import { useLocation } from 'wouter';
import type { NamedConductor, Point } from '../../../flow';
import { Stage } from '../../parts/picture/stage';
import type { Step } from '../../parts/step-nav';
import { to } from '../../routes';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { stageWord } from '../../text/stage-word';
import { t } from '../../text/t';
import { mapTag } from '../map/map-tag';

interface PhotoPictureProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly step: Step;
}

const NO_PLACES: readonly Point[] = [];

/** While a length is pointed out, what was touched of it; else the one that is kept, where the photo is edited. */
function lengthOf({ mode, lengthEnds, photo }: Workbench, step: Step): readonly Point[] {
  if (step !== 'photo') return NO_PLACES;
  return mode === 'length' ? lengthEnds : (photo.scale?.ends ?? NO_PLACES);
}

/** The picture of the job's photo. It is edited in the photo step; elsewhere a touch only selects. */
export function PhotoPicture({ bench, view, step }: PhotoPictureProps) {
  const [, navigate] = useLocation();
  const { task } = bench;
  const onTouch = (at: Point, conductor: NamedConductor | null): void => {
    if (step === 'photo') bench.touch(at, conductor);
    else if (conductor) {
      bench.select(conductor.id);
      if (step === 'conductor') navigate(to.conductor(bench.job.id, bench.photo.id, conductor.id));
    }
  };
  return (
    <>
      <Stage
        bytes={bench.bytes}
        picture={bench.size}
        conductors={view.conductors}
        references={bench.photo.findings.references}
        selected={bench.selected}
        outlines={bench.outlines}
        mode={step === 'photo' ? bench.mode : 'look'}
        stroke={bench.stroke}
        length={lengthOf(bench, step)}
        crossings={step === 'photo' && bench.mode === 'crossing' ? bench.crossings.map((c) => c.at) : NO_PLACES}
        standingOf={view.standingOf}
        labelOf={view.labelOf}
        tagOf={step === 'map' ? (id) => mapTag(view, id) : undefined}
        onTouch={onTouch}
        onDraw={bench.addToStroke}
      />
      {task.busy && (
        <div className="picture-status" role="status">
          <span>{stageWord(task.busy.stage)}</span>
          <button type="button" className="key" onClick={task.cancel}>
            {t('screen.reading.stop')}
          </button>
        </div>
      )}
    </>
  );
}
