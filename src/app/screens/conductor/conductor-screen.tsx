import { useEffect, useState } from 'react';
import { Cable } from '../../parts/cable';
import { HelpHeading } from '../../parts/help-heading';
import { StandingMark } from '../../parts/standing-mark';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { LostScreen } from '../lost-screen';
import { EndsNote } from './ends-note';
import { HueSections } from './hue-sections';
import { RibbonPicture } from './ribbon-picture';
import { RoleProposal } from './role-proposal';
import { SizeEstimate } from './size-estimate';
import { type Asked, WordForm } from './word-form';

interface ConductorScreenProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly id: string;
}

/** Everything known of one conductor, and the user's own word about it. */
export function ConductorScreen({ bench, view, id }: ConductorScreenProps) {
  const conductor = view.conductors.find((c) => c.id === id);
  const { select } = bench;
  useEffect(() => select(id), [select, id]);
  const [asked, ask] = useState<Asked>({ what: null, times: 0 });
  if (!conductor) return <LostScreen />;
  return (
    <div className="stack">
      <HelpHeading on="conductor" beside={<StandingMark standing={view.standingOf(id)} />}>
        {t('screen.conductor.title', { label: view.labelOf(id) })}
      </HelpHeading>
      <RibbonPicture
        bench={bench}
        conductor={conductor}
        onCorrect={(what) => ask(({ times }) => ({ what, times: times + 1 }))}
      />
      {conductor.covering === 'bare' ? (
        <p className="big-cable">
          <b>{t('screen.color.bare')}</b>
        </p>
      ) : (
        <>
          <p className="big-cable">
            <Cable insulation={conductor.insulation} stripe={conductor.stripe} word={conductor.userWord} />
          </p>
          <HueSections bench={bench} view={view} conductor={conductor} />
        </>
      )}
      <EndsNote conductor={conductor} />
      <SizeEstimate bench={bench} view={view} conductor={conductor} />
      <RoleProposal bench={bench} view={view} conductor={conductor} />
      <WordForm key={id} bench={bench} conductor={conductor} asked={asked} />
    </div>
  );
}
