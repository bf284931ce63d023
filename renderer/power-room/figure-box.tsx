/** A figure that is typed: what is typed stays as it is, and what is wrong with it is a sentence beside it. */
import { type NumberRange, parseNumberText } from '../../shared-model/number-text.ts';
import { TextBox } from '../parts/field.tsx';

interface FigureBoxProps {
  readonly label: string;
  readonly unit: string;
  readonly text: string;
  readonly range: NumberRange;
  readonly onChange: (text: string) => void;
  readonly hint?: string | undefined;
}

/** The figure in a text; null while it is empty or wrong. A comma is taken for the point. */
export function figureIn(text: string, range: NumberRange): number | null {
  const read = parseNumberText(text.replace(',', '.'), range);
  return read.ok ? read.value : null;
}

export function FigureBox({ label, unit, text, range, onChange, hint }: FigureBoxProps) {
  const read = parseNumberText(text.replace(',', '.'), range);
  const problem = text.trim() === '' || read.ok ? undefined : `${read.says.replace(/^e/, 'E')}.`;
  return (
    <TextBox label={`${label} (${unit})`} value={text} onChange={onChange} hint={hint} problem={problem} />
  );
}
