import { Icon, type IconName } from './icon';

interface ToolKeyProps {
  readonly icon: IconName;
  readonly label: string;
  readonly onPress: () => void;
  /** Present for keys that stay down. */
  readonly pressed?: boolean;
  readonly disabled?: boolean;
}

/** A key of the deck: drawing above its word. */
export function ToolKey({ icon, label, onPress, pressed, disabled = false }: ToolKeyProps) {
  return (
    <button type="button" className="key tool" aria-pressed={pressed} disabled={disabled} onClick={onPress}>
      <Icon name={icon} />
      {label}
    </button>
  );
}
