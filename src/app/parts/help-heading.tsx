import { type ReactNode, useId, useState } from 'react';
import { type ScreenCode, t } from '../text/t';
import { ScreenHeading } from './screen-heading';

const SENTENCES = {
  photo: [
    'screen.help.photo.1',
    'screen.help.photo.2',
    'screen.help.photo.3',
    'screen.help.photo.4',
    'screen.help.photo.5',
  ],
  conductor: ['screen.help.conductor.1', 'screen.help.conductor.2', 'screen.help.conductor.3'],
  map: ['screen.help.map.1', 'screen.help.map.2', 'screen.help.map.3', 'screen.help.map.4'],
  meter: ['screen.help.meter.1', 'screen.help.meter.2', 'screen.help.meter.3', 'screen.help.meter.4'],
} as const satisfies Readonly<Record<string, readonly ScreenCode[]>>;

interface HelpHeadingProps {
  readonly on: keyof typeof SENTENCES;
  readonly children: ReactNode;
  /** Stands between heading and help, such as a standing. */
  readonly beside?: ReactNode;
}

/** The heading of a screen, and help where it is needed: a few sentences on this screen, folded until asked for. */
export function HelpHeading({ on, children, beside }: HelpHeadingProps) {
  const [open, setOpen] = useState(false);
  const id = useId();
  return (
    <div className="stack">
      <div className="heading-row">
        <ScreenHeading>{children}</ScreenHeading>
        {beside}
        <button
          type="button"
          className="key help-key"
          aria-label={t(`screen.help.${on}.title`)}
          aria-expanded={open}
          aria-controls={id}
          onClick={() => setOpen(!open)}
        >
          <span aria-hidden="true">?</span>
        </button>
      </div>
      <ul id={id} className="plain-list note" hidden={!open}>
        {SENTENCES[on].map((code) => (
          <li key={code}>{t(code)}</li>
        ))}
      </ul>
    </div>
  );
}
