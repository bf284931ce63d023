/** Something that a person says is so. */
interface TickProps {
  readonly says: string;
  readonly ticked: boolean;
  readonly onChange: (ticked: boolean) => void;
  /** What the console has on record about it, if it looks otherwise. */
  readonly remark?: string | undefined;
}

export function Tick({ says, ticked, onChange, remark }: TickProps) {
  return (
    <label className="tick">
      <input type="checkbox" checked={ticked} onChange={(event) => onChange(event.target.checked)} />
      <span>
        {says}
        {remark === undefined ? null : <span className="tick-remark">{remark}</span>}
      </span>
    </label>
  );
}
