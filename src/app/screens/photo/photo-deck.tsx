import { Link } from 'wouter';
import { CancelRow } from '../../parts/cancel-row';
import { Icon } from '../../parts/icon';
import { ToolKey } from '../../parts/tool-key';
import { UndoKeys } from '../../parts/undo-keys';
import { to } from '../../routes';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { CrossingKeys } from './crossing-keys';
import { LengthKeys } from './length-keys';
import { ReferenceKeys } from './reference-keys';

/** The photo step's keys: tools of the picture, or of the conductor that is selected, or of the mode under way. */
export function PhotoDeck({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  if (bench.mode === 'draw') return <DrawKeys bench={bench} />;
  if (bench.mode === 'crossing') return <CrossingKeys bench={bench} labelOf={view.labelOf} />;
  if (bench.mode === 'reference') return <ReferenceKeys bench={bench} />;
  if (bench.mode === 'length') return <LengthKeys bench={bench} />;
  if (bench.mode !== 'look') return <AimKeys bench={bench} />;
  return bench.selected ? <ConductorKeys bench={bench} id={bench.selected} /> : <PictureKeys bench={bench} />;
}

function PictureKeys({ bench }: { readonly bench: Workbench }) {
  const ready = Boolean(bench.bytes);
  return (
    <>
      <div className="deck-row">
        <ToolKey icon="draw" label={t('screen.tool.draw')} disabled={!ready} onPress={() => bench.setMode('draw')} />
        <ToolKey
          icon="paper"
          label={t('screen.tool.reference')}
          disabled={!ready}
          onPress={() => bench.setMode('reference')}
        />
        <ToolKey icon="length" label={t('screen.tool.length')} onPress={() => bench.setMode('length')} />
      </div>
      <div className="deck-row">
        <ToolKey
          icon="outline"
          label={t('screen.tool.outlines')}
          pressed={bench.outlines}
          onPress={bench.toggleOutlines}
        />
        <UndoKeys />
      </div>
    </>
  );
}

function ConductorKeys({ bench, id }: { readonly bench: Workbench; readonly id: string }) {
  const ready = Boolean(bench.bytes);
  return (
    <>
      <div className="deck-row">
        <ToolKey icon="split" label={t('screen.tool.split')} disabled={!ready} onPress={() => bench.setMode('split')} />
        <ToolKey icon="join" label={t('screen.tool.join')} disabled={!ready} onPress={() => bench.setMode('join')} />
        <ToolKey icon="discard" label={t('screen.tool.discard')} onPress={() => bench.discard(id)} />
        <UndoKeys />
      </div>
      <div className="deck-row">
        <button type="button" className="key" onClick={() => bench.select(null)}>
          {t('screen.tool.let-go')}
        </button>
        {bench.crossings.length > 0 && (
          <button type="button" className="key" disabled={!ready} onClick={() => bench.setMode('crossing')}>
            {t('screen.tool.crossings', { count: bench.crossings.length })}
          </button>
        )}
        <Link className="key main" href={to.conductor(bench.job.id, bench.photo.id, id)}>
          {t('screen.tool.open')}
          <Icon name="open" />
        </Link>
      </div>
    </>
  );
}

function DrawKeys({ bench }: { readonly bench: Workbench }) {
  return (
    <>
      <p role="status">{t('screen.draw.how')}</p>
      <div className="deck-row">
        <button type="button" className="key" onClick={() => bench.setMode('look')}>
          {t('screen.cancel')}
        </button>
        <button type="button" className="key" disabled={bench.stroke.length === 0} onClick={bench.clearStroke}>
          {t('screen.draw.clear')}
        </button>
        <button type="button" className="key main" disabled={bench.stroke.length < 2} onClick={bench.traceStroke}>
          {t('screen.draw.trace')}
        </button>
      </div>
    </>
  );
}

/** Waiting for a touch on the picture: where to split, or what to join with. */
function AimKeys({ bench }: { readonly bench: Workbench }) {
  return (
    <>
      <p role="status">
        {bench.tooClose && <b>{t('screen.split.too-close')} </b>}
        {t(bench.mode === 'split' ? 'screen.split.how' : 'screen.join.how')}
      </p>
      <CancelRow onCancel={() => bench.setMode('look')} />
    </>
  );
}
