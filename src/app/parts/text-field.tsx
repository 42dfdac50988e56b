interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onBlur?: () => void;
  /** A number is typed: the keyboard with digits. */
  readonly decimal?: boolean;
  readonly autoComplete?: 'off' | 'name';
}

/** One line of text with its label above it. */
export function TextField({ label, value, onChange, onBlur, decimal, autoComplete = 'off' }: TextFieldProps) {
  return (
    <label className="field">
      <span>{label}</span>
      <input
        type="text"
        inputMode={decimal ? 'decimal' : undefined}
        autoComplete={autoComplete}
        value={value}
        onChange={(e) => onChange(e.target.value)}
        onBlur={onBlur}
      />
    </label>
  );
}
