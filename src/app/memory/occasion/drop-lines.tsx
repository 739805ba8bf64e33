import type { LineCard } from '../../../cards/index.ts';
import { type MarkingModel, SetAsideKeys } from '../set-aside-keys.tsx';
import { linesByPattern } from './words.ts';

/** Lines that a forecast would drop, and keys that set them aside in two steps. */
export function DropLines(props: {
  readonly model: MarkingModel;
  readonly lines: readonly LineCard[];
}) {
  const { lines } = props;
  const what = lines.length === 1 ? 'this line' : `these ${lines.length} lines`;
  return (
    <div class="stack">
      <ul class="bulleted">
        {linesByPattern(lines).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <SetAsideKeys
        model={props.model}
        lines={lines.map(({ lineId }) => lineId)}
        label={`Set ${what} aside`}
      />
    </div>
  );
}
